#include "geometry/terrain/viewshed.h"

#include <tbb/parallel_for.h>
#include <tbb/partitioner.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "geometry/terrain/eighth_sweep.h"

namespace hummock::geom {

Raster least_visible_height(const Heightfield& ground, Vec3 eye) {
  return least_visible_height(ground, eye, {0, ground.grid.nx - 1, 0, ground.grid.ny - 1});
}

namespace {

// The eighth with the most nodes ahead of the eye first: the last to end ends soonest so.
std::array<Eighth, 8> largest_first(const Grid& g, Vec2 eye) {
  std::array<Eighth, 8> all;
  std::array<std::pair<double, int>, 8> size;
  for (int n = 0; n < 8; ++n) {
    const Eighth way{(n & 1) != 0, (n & 2) != 0 ? 1 : -1, (n & 4) != 0 ? 1 : -1};
    const auto ahead = [](double at, double lo, double hi, int sign) {
      return sign > 0 ? hi - at : at - lo;
    };
    const double x = ahead(eye.x, g.x0, g.x_max(), way.along_x ? way.sign_p : way.sign_q);
    const double y = ahead(eye.y, g.y0, g.y_max(), way.along_x ? way.sign_q : way.sign_p);
    const double p = way.along_x ? x : y, q = std::min(p, way.along_x ? y : x);
    size[static_cast<std::size_t>(n)] = {-q * (p - 0.5 * q), n};
    all[static_cast<std::size_t>(n)] = way;
  }
  std::sort(size.begin(), size.end());
  std::array<Eighth, 8> out;
  for (std::size_t n = 0; n < 8; ++n) out[n] = all[static_cast<std::size_t>(size[n].second)];
  return out;
}

void sweep(const Heightfield& ground, Vec3 eye, const NodeRange& wanted,
           const ViewAnswers& answers) {
  const std::array<Eighth, 8> ways = largest_first(ground.grid, xy(eye));
  std::atomic<std::size_t> next{0};  // in this order, whichever thread takes it
  tbb::parallel_for(
      0, 8, [&](int) { sweep_eighth(ground, eye, ways[next++], wanted, answers); },
      tbb::simple_partitioner{});
}

void need_cover(const Heightfield& ground, Vec3 eye) {
  if (!covers(ground, xy(eye)))
    throw std::invalid_argument("viewshed: the eye is off the ground's grid");
}

}  // namespace

Raster least_visible_height(const Heightfield& ground, Vec3 eye, const NodeRange& wanted) {
  need_cover(ground, eye);
  Raster out(ground.grid, 0.0F);
  ViewAnswers answers;
  answers.least = out.values.data();
  sweep(ground, eye, wanted, answers);
  return out;
}

std::vector<std::uint8_t> hidden_nodes(const Heightfield& ground, Vec3 eye, double tall,
                                       const NodeRange& wanted) {
  need_cover(ground, eye);
  std::vector<std::uint8_t> out(ground.grid.size(), 0);
  ViewAnswers answers;
  answers.hidden = out.data();
  answers.tall = tall;
  sweep(ground, eye, wanted, answers);
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
