#include "engine/shade/year/sun_patches.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace hummock::shade {
namespace {

// Sides of a patch. A shadow's end moves by the height over sin² for a radian of elevation, so
// patches grow with it: `kFlattest` and kGrowth of the elevation more. In azimuth it moves by the
// shadow's length, so patches widen with the tangent. Layout of the work.
constexpr double kFlattest = 0.75 * geom::kDegree;
constexpr double kGrowth = 0.1;
constexpr double kNarrowest = 3.0 * geom::kDegree;
constexpr double kWiden = 8.0 * geom::kDegree;

std::pair<int, int> patch_of(const YearSun& s) {
  const double rung = std::floor(std::log1p(kGrowth * s.elevation / kFlattest) / kGrowth);
  const double from = kFlattest / kGrowth * std::expm1(kGrowth * rung);
  const double side = std::max(kNarrowest, kWiden * std::tan(from));
  return {static_cast<int>(rung), static_cast<int>(std::floor(s.azimuth / side))};
}

void close(SunPatch& patch) {
  Vec2 sum;
  patch.run = {patch.suns.front().ray.run, patch.suns.front().ray.run};
  patch.hours.assign(12, 0.0);
  for (const YearSun& s : patch.suns) {
    const Vec2 r = s.ray.run;
    patch.run.lo = {std::min(patch.run.lo.x, r.x), std::min(patch.run.lo.y, r.y)};
    patch.run.hi = {std::max(patch.run.hi.x, r.x), std::max(patch.run.hi.y, r.y)};
    sum = sum + unit(r);
    for (const SunHours& h : s.hours) patch.hours[h.month] += h.hours;
  }
  patch.along = unit(sum);
}

}  // namespace

std::vector<SunPatch> sun_patches(std::vector<YearSun> suns) {
  std::map<std::pair<int, int>, SunPatch> patches;
  for (YearSun& s : suns) patches[patch_of(s)].suns.push_back(std::move(s));
  std::vector<SunPatch> result;
  for (auto& [key, patch] : patches) {
    close(patch);
    result.push_back(std::move(patch));
  }
  return result;
}

}  // namespace hummock::shade
