#include "engine/burrows/spot_score.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hummock::burrows {

namespace {

// common practice, no source: these three
constexpr double kGoodSlopeFrom = 5.0 * geom::kDegree;
constexpr double kGoodSlopeTo = 25.0 * geom::kDegree;
constexpr double kLevelScore = 0.5;
constexpr double kLeastReach =
    1.0;  // m, of an animal that does not dig; common practice, no source

double slope_score(double slope, double stand_slope) {
  const double steepest = std::max(stand_slope, kGoodSlopeTo + geom::kDegree);
  if (slope < kGoodSlopeFrom) return kLevelScore + (1 - kLevelScore) * slope / kGoodSlopeFrom;
  if (slope <= kGoodSlopeTo) return 1.0;
  return std::max(0.0, (steepest - slope) / (steepest - kGoodSlopeTo));
}

std::string soil_words(const BurrowSite& s, const Siting& siting) {
  if (!s.soil_m) return "no rock below, as far as the site says";
  if (*s.soil_m >= siting.dig_depth) {
    return fmt::format("{:.1f} m of soil, as deep as it digs ({:.1f} m)", *s.soil_m,
                       siting.dig_depth);
  }
  return fmt::format("only {:.1f} m of soil where it digs {:.1f} m", *s.soil_m, siting.dig_depth);
}

std::string slope_words(const BurrowSite& s) {
  const double slope = s.slope_deg * geom::kDegree;
  if (slope < kGoodSlopeFrom) return fmt::format("nearly level ({:.0f}°)", s.slope_deg);
  if (slope <= kGoodSlopeTo) return fmt::format("on a slope of {:.0f}° that drains", s.slope_deg);
  return fmt::format("steep ({:.0f}°)", s.slope_deg);
}

}  // namespace

Siting siting_of(const Model& model) {
  Siting s;
  if (model.site.siting) s.weights = *model.site.siting;
  const Species& animal = model.site.species;
  s.dig_depth = animal.dig_depth.value > 0.0 ? animal.dig_depth.value : kLeastReach;
  s.dig_length = std::max(animal.dig_length.value, kLeastReach);
  s.stand_slope = animal.stand_slope.value > 0.0 ? animal.stand_slope.value : geom::kPi / 4;
  return s;
}

double sample(const geom::Raster& raster, Vec2 p, double otherwise) {
  const geom::Grid& g = raster.grid;
  const int i = static_cast<int>(std::lround((p.x - g.x0) / g.cell));
  const int j = static_cast<int>(std::lround((p.y - g.y0) / g.cell));
  if (!g.holds(i, j) || raster.values.empty()) return otherwise;
  const float v = raster.at(i, j);
  return std::isnan(v) ? otherwise : v;
}

Patch mouth(const Yard& yard, Vec2 at, double diameter) {
  const double cell = yard.model.ground.grid.cell;
  Patch out{at, {at}, 0.5 * std::max(diameter, yard.ground.body().length)};
  const int n = static_cast<int>(std::floor(out.reach / cell));
  for (int j = -n; j <= n; ++j)
    for (int i = -n; i <= n; ++i) {
      const Vec2 off = Vec2{static_cast<double>(i), static_cast<double>(j)} * cell;
      if ((i != 0 || j != 0) && length(off) <= out.reach) out.points.push_back(at + off);
    }
  return out;
}

Patch den_front(const Yard& yard, const Den& den) {
  constexpr double kOff = 0.01;  // m before the den's wall
  const double cell = yard.model.ground.grid.cell;
  const double deep = std::max(yard.ground.body().length, kOff);
  const Vec2 ahead{std::cos(den.turn), std::sin(den.turn)};
  const Vec2 aside = geom::left_of(ahead);
  const int along = std::max(1, static_cast<int>(std::ceil(deep / cell)));
  const int across = std::max(1, static_cast<int>(std::ceil(den.opening / cell)));
  Patch out{den.at + ahead * (0.5 * den.size.x + 0.5 * deep), {}, 0.5 * deep};
  for (int i = 0; i <= along; ++i)
    for (int j = 0; j <= across; ++j)
      out.points.push_back(den.at + ahead * (0.5 * den.size.x + kOff + deep * i / along) +
                           aside * (den.opening * (static_cast<double>(j) / across - 0.5)));
  return out;
}

namespace {

// The mean of what lies open; ground inside something solid has no shade of its own.
double mean_shade(const geom::Raster& share, const Patch& patch) {
  double sum = 0.0;
  int n = 0;
  for (const Vec2 p : patch.points) {
    const double v = sample(share, p, -1.0);
    if (v < 0.0) continue;
    sum += v;
    ++n;
  }
  return n > 0 ? sum / n : 0.0;
}

std::optional<double> least_soil(const Model& model, const Patch& patch) {
  std::optional<double> least;
  for (const Vec2 p : patch.points) {
    const std::optional<double> soil = soil_over_rock(model, p);
    if (soil && (!least || *soil < *least)) least = soil;
  }
  return least;
}

// Across the patch, or of the ground's triangle where the patch is a point.
double slope_across(const geom::Heightfield& ground, const Patch& patch) {
  if (patch.points.size() < 2) return slope_at(ground, patch.at);
  const auto rise = [&](Vec2 step) {
    return (height_at(ground, patch.at + step) - height_at(ground, patch.at - step)) /
           (2.0 * patch.reach);
  };
  return std::atan(std::hypot(rise({patch.reach, 0.0}), rise({0.0, patch.reach})));
}

void look_for_veto(const Yard& yard, const Patch& patch, BurrowSite& s) {
  bool solid = true;
  for (const Vec2 p : patch.points) {
    s.ponding_m = std::max(s.ponding_m, sample(yard.water.pond_depth, p, 0.0));
    s.water_m = std::max(s.water_m, yard.ground.water_depth(p, height_at(yard.model.ground, p)));
    solid = solid && yard.ground.in_solid(p);
  }
  if (s.water_m > 0.0)
    s.veto = fmt::format("drawn water stands {:.0f} cm deep over it", std::ceil(100 * s.water_m));
  else if (s.ponding_m >= kWetDepth)
    s.veto = fmt::format("rain stands {:.0f} cm deep in it", std::ceil(100 * s.ponding_m));
  else if (solid)
    s.veto = "something solid stands on it";
}

}  // namespace

BurrowSite measure(const Yard& yard, const Patch& patch) {
  const Model& model = yard.model;
  const Siting& siting = yard.siting;
  BurrowSite s;
  s.at = patch.at;
  s.shade_11_15 = mean_shade(yard.day.midday_shade_share, patch);
  s.soil_m = least_soil(model, patch);
  const double slope = slope_across(model.ground, patch);
  s.slope_deg = slope / geom::kDegree;
  look_for_veto(yard, patch, s);
  s.fence_m = distance_to_edges(model.outline, patch.at);
  s.shade_score = s.shade_11_15;
  s.soil_score = s.soil_m ? std::clamp(*s.soil_m / siting.dig_depth, 0.0, 1.0) : 1.0;
  s.slope_score = slope_score(slope, siting.stand_slope);
  s.ponding_score = std::clamp(1.0 - s.ponding_m / kWetDepth, 0.0, 1.0);
  s.fence_score = std::min(1.0, s.fence_m / siting.dig_length);
  const SitingWeights& w = siting.weights;
  const double all = w.shade + w.soil + w.slope + w.ponding + w.fence;
  if (all > 0.0 && s.veto.empty()) {
    s.score = (w.shade * s.shade_score + w.soil * s.soil_score + w.slope * s.slope_score +
               w.ponding * s.ponding_score + w.fence * s.fence_score) /
              all;
  }
  return s;
}

std::vector<std::string> reasons(const BurrowSite& s, const Siting& siting) {
  std::vector<std::string> words;
  if (!s.veto.empty()) words.push_back("no place for a burrow: " + s.veto);
  words.push_back(fmt::format("in shade for {:.0f} % of 11–15 h by the sun", 100 * s.shade_11_15));
  words.push_back(soil_words(s, siting));
  words.push_back(slope_words(s));
  words.push_back(s.ponding_m > 0.0
                      ? fmt::format("rain stands {:.0f} cm deep", std::ceil(100 * s.ponding_m))
                      : std::string("rain does not stand"));
  words.push_back(s.fence_m >= siting.dig_length
                      ? fmt::format("{:.1f} m from the fence, beyond a tunnel of {:.1f} m",
                                    s.fence_m, siting.dig_length)
                      : fmt::format("{:.1f} m from the fence, within a tunnel of {:.1f} m",
                                    s.fence_m, siting.dig_length));
  return words;
}

}  // namespace hummock::burrows
