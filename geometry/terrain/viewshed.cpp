#include "geometry/terrain/viewshed.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "geometry/terrain/eighth_sweep.h"

namespace hummock::geom {

Raster least_visible_height(const Heightfield& ground, Vec3 eye) {
  return least_visible_height(ground, eye, {0, ground.grid.nx - 1, 0, ground.grid.ny - 1});
}

Raster least_visible_height(const Heightfield& ground, Vec3 eye, const NodeRange& wanted) {
  if (!covers(ground, xy(eye)))
    throw std::invalid_argument("least_visible_height: the eye is off the ground's grid");
  Raster out(ground.grid, 0.0F);
  tbb::parallel_for(0, 8, [&](int n) {
    sweep_eighth(ground, eye, {(n & 1) != 0, (n & 2) != 0 ? 1 : -1, (n & 4) != 0 ? 1 : -1}, wanted,
                 out);
  });
  return out;
}

double least_visible_height_at(const Heightfield& ground, Vec3 eye, Vec2 foot) {
  const double z = height_at(ground, foot);
  double need = 0.0;
  for (const double t : ground_breaks(ground, xy(eye), foot)) {
    if (t < 1e-9 || t >= 1.0) continue;
    const Vec2 over = lerp(xy(eye), foot, t);
    if (!covers(ground, over)) continue;
    const double crossed = height_at(ground, over);
    need = std::max(need, eye.z + (crossed - eye.z) / t - z);
  }
  const double slack = kSkylineRounding * (std::abs(z) + 2.0 * std::abs(eye.z) + 1.0);
  return need > slack ? need : 0.0;
}

}  // namespace hummock::geom
