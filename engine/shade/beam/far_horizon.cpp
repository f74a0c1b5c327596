#include "engine/shade/beam/far_horizon.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/shade/beam/ground_tiles.h"

namespace hummock::shade {
namespace {

constexpr float kNoLand = -1e6F;  // tangent where there is none

Vec2 direction(int azimuth) {
  const double a = 2.0 * geom::kPi * azimuth / FarHorizon::kAzimuths;
  return {std::sin(a), std::cos(a)};
}

// How far the line from p goes before it leaves the grid.
double way_out(const geom::Grid& g, Vec2 p, Vec2 u) {
  const auto along = [](double at, double step, double lo, double hi) {
    if (step == 0.0) return 1e30;
    return std::max(0.0, ((step > 0.0 ? hi : lo) - at) / step);
  };
  return std::min(along(p.x, u.x, g.x0, g.x_max()), along(p.y, u.y, g.y0, g.y_max()));
}

}  // namespace

FarHorizon::FarHorizon(const Model& model) {
  if (!model.beyond) return;
  const geom::Box2 box = geom::bounds(model.outline);
  const double side = std::max(box.hi.x - box.lo.x, box.hi.y - box.lo.y);
  posts_ = {box.lo.x, box.lo.y, side / (kPosts - 1), 0, 0};
  posts_.nx = 2 + static_cast<int>((box.hi.x - box.lo.x) / posts_.cell - 1e-9);
  posts_.ny = 2 + static_cast<int>((box.hi.y - box.lo.y) / posts_.cell - 1e-9);
  height_.resize(posts_.size());
  touches_.resize(posts_.size() * kAzimuths);
  const auto& land = model.beyond->z;
  const double highest = *std::max_element(land.begin(), land.end());
  tbb::parallel_for(std::size_t{0}, posts_.size(),
                    [&](std::size_t k) { look_from(model, k, highest); });
  const double lowest = *std::min_element(model.ground.z.begin(), model.ground.z.end());
  for (std::size_t k = 0; k < touches_.size(); ++k) {
    const Touch& t = touches_[k];
    const double lower = height_[k / kAzimuths] - lowest;
    steepest_ = std::max(steepest_, t.tangent + lower * t.per_metre);
  }
}

void FarHorizon::look_from(const Model& model, std::size_t post, double highest) {
  constexpr double kSpare = 1e-6;  // m, over the rounding of heights between nodes
  const geom::Heightfield& land = *model.beyond;
  const Vec2 p = posts_.node(static_cast<int>(post % static_cast<std::size_t>(posts_.nx)),
                             static_cast<int>(post / static_cast<std::size_t>(posts_.nx)));
  const double eye = height_at(model.ground, p) + kLift;
  const double summit = highest + kSpare - eye;
  height_[post] = static_cast<float>(eye);
  for (int a = 0; a < kAzimuths; ++a) {
    const Vec2 u = direction(a);
    double best = kNoLand, at = 1e30;
    const double end = way_out(land.grid, p, u);
    touches_[post * kAzimuths + static_cast<std::size_t>(a)] = {kNoLand, 0.0F};
    const double begin = way_out(model.ground.grid, p, u);
    if (end <= begin) continue;
    // The surface is straight between its breaks, so the steepest line to it meets one of them.
    for (const double t : geom::ground_breaks(land, p + u * begin, p + u * end)) {
      const double d = begin + t * (end - begin);
      if (d <= 0.0) continue;
      // Not even the highest land, and so none farther out, is steeper from here on.
      if (summit > 0.0 && summit <= best * d) break;
      const double tangent = (height_at(land, p + u * d) - eye) / d;
      if (tangent > best) best = tangent, at = d;
    }
    touches_[post * kAzimuths + static_cast<std::size_t>(a)] = {static_cast<float>(best),
                                                                static_cast<float>(1.0 / at)};
  }
}

double FarHorizon::tangent_at(Vec3 from, const SunRay& sun) const {
  const double turn = std::atan2(sun.run.x, sun.run.y) / (2.0 * geom::kPi) * kAzimuths;
  const double first = std::floor(turn);
  const double part = turn - first;
  const auto a0 = static_cast<std::size_t>((static_cast<int>(first) + 2 * kAzimuths) % kAzimuths);
  const std::size_t a1 = (a0 + 1) % kAzimuths;
  const double x = std::clamp((from.x - posts_.x0) / posts_.cell, 0.0, posts_.nx - 1.0);
  const double y = std::clamp((from.y - posts_.y0) / posts_.cell, 0.0, posts_.ny - 1.0);
  const int i = std::min(static_cast<int>(x), posts_.nx - 2);
  const int j = std::min(static_cast<int>(y), posts_.ny - 2);
  double sum = 0.0;
  for (int k = 0; k < 4; ++k) {
    const std::size_t post = posts_.index(i + k % 2, j + k / 2);
    const double weight =
        (k % 2 == 0 ? 1.0 - (x - i) : x - i) * (k / 2 == 0 ? 1.0 - (y - j) : y - j);
    const Touch *row = &touches_[post * kAzimuths], &t0 = row[a0], &t1 = row[a1];
    const double lower = height_[post] - from.z;
    sum += weight * ((1.0 - part) * (t0.tangent + lower * t0.per_metre) +
                     part * (t1.tangent + lower * t1.per_metre));
  }
  return sum;
}

bool FarHorizon::hides(Vec3 from, const SunRay& sun) const {
  if (!any()) return false;
  const double run = length(sun.run);
  return run > 0.0 && run * tangent_at(from, sun) >= 1.0;
}

FarHorizon::Over FarHorizon::over(const geom::Box3& box, const SunRay& sun) const {
  const double run = length(sun.run);
  const double tangent = run > 0.0 ? 1.0 / run : 1e30;
  if (!any() || tangent > steepest_) return Over::clear;
  double least = 1e30, most = -1e30;
  for (const Vec2 p : {xy(box.lo), Vec2{box.hi.x, box.lo.y}, Vec2{box.lo.x, box.hi.y}, xy(box.hi)})
    for (const double z : {box.lo.z, box.hi.z}) {
      const double t = tangent_at(at_height(p, z), sun);
      least = std::min(least, t);
      most = std::max(most, t);
    }
  if (tangent > most + kSure) return Over::clear;
  return tangent < least - kSure ? Over::hidden : Over::part;
}

bool FarHorizon::may_hide(const RunRange& run) const {
  const double most = std::hypot(std::max(std::abs(run.lo.x), std::abs(run.hi.x)),
                                 std::max(std::abs(run.lo.y), std::abs(run.hi.y)));
  return any() && most * steepest_ >= 1.0;
}

}  // namespace hummock::shade
