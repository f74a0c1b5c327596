#include "engine/ground/basins.h"

#include <algorithm>
#include <cmath>

#include "engine/ground/lost_detail.h"

namespace hummock::ground {
namespace {

// Its width if it is long; less where it is not, half of it for a square.
double width_of(const Polygon& outline) {
  return 2.0 * std::abs(geom::signed_area(outline)) / std::max(geom::perimeter(outline), 1e-9);
}

}  // namespace

double lowest_rim(const geom::Heightfield& ground, const Polygon& outline) {
  double lowest = geom::height_at(ground, outline.front());
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[(k + 1) % outline.size()];
    for (double t : geom::ground_breaks(ground, a, b)) {
      lowest = std::min(lowest, geom::height_at(ground, geom::lerp(a, b, t)));
    }
  }
  return lowest;
}

void dig_basin(geom::Heightfield& ground, const Water& water) {
  if (!water.depth || water.level) return;
  const geom::Grid& g = ground.grid;
  const double surface = lowest_rim(ground, water.outline);
  const double fall = std::tan(water.side_slope);
  const geom::Box2 box = geom::bounds(water.outline);
  const auto first = [&](double from, double x0) {
    return std::max(0, static_cast<int>(std::floor((from - x0) / g.cell)));
  };
  for (int j = first(box.lo.y, g.y0); j < g.ny && g.node(0, j).y <= box.hi.y; ++j) {
    for (int i = first(box.lo.x, g.x0); i < g.nx && g.node(i, 0).x <= box.hi.x; ++i) {
      const Vec2 p = g.node(i, j);
      if (!geom::contains(water.outline, p)) continue;
      const double drop = fall * geom::distance_to_edges(water.outline, p);
      ground.at(i, j) = std::min(ground.at(i, j), surface - std::min(*water.depth, drop));
    }
  }
}

bool cut_coarsely(const Water& water, double cell) {
  constexpr double kCellsAcross = 3.0;  // common practice, no source
  const double depth = water.depth.value_or(0.0);
  if (water.level || depth <= kLostDetail) return false;
  const double run = depth / std::tan(water.side_slope);
  return run < cell || width_of(water.outline) < kCellsAcross * cell;
}

}  // namespace hummock::ground
