#include "engine/water/way_out.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"

namespace hummock::water {
namespace {

constexpr double kFarthestIn = 3.0;   // m; common practice, no source: as in basins.cpp
constexpr double kLeastAbove = 0.01;  // m above the ground

}  // namespace

WayOut::WayOut(const Model& model)
    : model_(model), usable_(model), step_(0.5 * model.ground.grid.cell) {}

// How far in the water is `reach` deep: no farther than the fence.
double WayOut::way_in(const Shore& shore, double level, double reach) const {
  double in = 0.0;
  while (in + step_ <= kFarthestIn) {
    const Vec2 p = shore.at - shore.out * (in + step_);
    if (!geom::contains(model_.outline, p)) break;
    in += step_;
    if (level - geom::height_at(model_.ground, p) >= reach) break;
  }
  return in;
}

bool WayOut::step_free(Vec2 from, Vec2 to) const {
  if (!model_.body_scene) return true;
  const double low = std::max(0.5 * usable_.body().crouch, kLeastAbove);
  const double high = std::max(0.9 * usable_.body().height, low);
  for (const double up : {low, high}) {
    const Vec3 a = geom::at_height(from, geom::height_at(model_.ground, from) + up);
    const Vec3 b = geom::at_height(to, geom::height_at(model_.ground, to) + up);
    for (const geom::Hit& hit : model_.body_scene->all_hits({a, b - a, 0.0, 1.0}))
      if (hit.id != kGroundId) return false;
  }
  return true;
}

bool WayOut::line_open(Vec2 from, Vec2 to) const {
  const int steps = std::max(1, static_cast<int>(std::ceil(geom::distance(from, to) / step_)));
  Vec2 before = from;
  for (int k = 0; k <= steps; ++k) {
    const Vec2 p = geom::lerp(from, to, static_cast<double>(k) / steps);
    if (!geom::contains(model_.outline, p) || usable_.in_solid(p)) return false;
    if (k > 0 && !step_free(before, p)) return false;
    before = p;
  }
  return true;
}

bool WayOut::open(const Shore& shore, double level, double reach, double beyond) const {
  const Vec2 from = shore.at - shore.out * way_in(shore, level, reach);
  const Vec2 to = shore.at + shore.out * beyond;
  if (!geom::contains(model_.outline, shore.at) || !usable_.can_stand(to)) return false;
  const double width = usable_.body().width;
  const int lines = std::max(2, static_cast<int>(std::ceil(width / (2.0 * step_))));
  for (int k = 0; k <= lines; ++k) {
    const Vec2 aside = geom::left_of(shore.out) * (width * (static_cast<double>(k) / lines - 0.5));
    if (!line_open(from + aside, to + aside)) return false;
  }
  return true;
}

}  // namespace hummock::water
