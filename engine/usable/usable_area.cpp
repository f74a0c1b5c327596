#include "engine/usable/usable_area.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/mesh/convex_piece.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock::usable {
namespace {

constexpr int kTileRows = 32;

Vec2 middle(const geom::Convex& c) {
  Vec2 sum;
  for (int k = 0; k < c.n; ++k) sum = sum + c[k];
  return sum * (1.0 / c.n);
}

// Some corner of the cell about p lies in a patch the body fits.
bool in_patch(const Nodes& nodes, Vec2 p) {
  const geom::Grid& g = nodes.grid;
  const int i = std::clamp(static_cast<int>(std::floor((p.x - g.x0) / g.cell)), 0, g.nx - 2);
  const int j = std::clamp(static_cast<int>(std::floor((p.y - g.y0) / g.cell)), 0, g.ny - 2);
  const auto live = [&](int a, int b) { return nodes.live[g.index(a, b)] != 0; };
  return live(i, j) || live(i + 1, j) || live(i, j + 1) || live(i + 1, j + 1);
}

// The outline's triangles cut into strips of whole rows: work for one thread each, in fixed order.
std::vector<geom::Convex> strips(const Model& model) {
  const geom::Grid& g = model.ground.grid;
  std::vector<geom::Convex> out;
  for (const auto& [a, b, c] : geom::triangulate(model.outline)) {
    const geom::Convex whole{{model.outline[a], model.outline[b], model.outline[c]}, 3};
    for (int j = 0; j + 1 < g.ny; j += kTileRows) {
      const double y0 = g.y0 + j * g.cell;
      const double y1 = g.y0 + (j + kTileRows) * g.cell;
      geom::Convex strip = geom::clip_to(whole, [&](Vec2 p) { return p.y - y0; });
      if (j + kTileRows + 1 < g.ny) strip = geom::clip_to(strip, [&](Vec2 p) { return y1 - p.y; });
      if (strip.n >= 3) out.push_back(strip);
    }
  }
  return out;
}

}  // namespace

double living_area(const Model& model, const UsableGround& ground, const Nodes& nodes) {
  const std::vector<geom::Convex> work = strips(model);
  std::vector<double> areas(work.size(), 0.0);
  tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t k) {
    geom::overlay_with_ground(model.ground, work[k],
                              [&](const geom::Convex& piece, const geom::Linear& height) {
                                const Vec2 p = middle(piece);
                                if (in_patch(nodes, p) && ground.can_stand(p, height(p), height.g))
                                  areas[k] += geom::area(piece);
                              });
  });
  double total = 0.0;
  for (const double a : areas) total += a;
  return total;
}

double outdoor_area(const Model& model) {
  double indoors = 0.0;
  const auto yard = geom::triangulate(model.outline);
  for (const House& house : model.site.houses) {
    Polygon walls = house.outline;
    if (geom::signed_area(walls) < 0.0) std::reverse(walls.begin(), walls.end());
    for (const auto& [a, b, c] : geom::triangulate(walls))
      for (const auto& [d, e, f] : yard)
        indoors += geom::area(
            geom::clip_to_triangle(geom::Convex{{walls[a], walls[b], walls[c]}, 3},
                                   {model.outline[d], model.outline[e], model.outline[f]}));
  }
  return std::abs(geom::signed_area(model.outline)) - indoors;
}

}  // namespace hummock::usable
