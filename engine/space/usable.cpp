#include "engine/space/usable.h"

#include <tbb/parallel_for.h>

#include <cmath>
#include <vector>

#include "geometry/mesh/convex_piece.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock::space {
namespace {

constexpr int kTileRows = 32;
constexpr double kClear = 0.005;  // m above the ground where the upward ray starts

struct Basin {
  geom::Polygon outline;
  geom::Box2 box;
  double level = 0.0;
};

struct Judge {
  const Model& model;
  double steepest = 0.0;  // tangent of the slope
  double body_height = 0.0;
  std::vector<geom::Polygon> covered;  // dens and houses
  std::vector<Basin> basins;

  bool under_water(Vec2 p, double ground) const {
    for (const Basin& b : basins) {
      if (p.x < b.box.lo.x || p.x > b.box.hi.x || p.y < b.box.lo.y || p.y > b.box.hi.y) continue;
      if (b.level - ground > model.site.species.wade_depth.value && geom::contains(b.outline, p))
        return true;
    }
    return false;
  }

  bool blocked_above(Vec2 p, double ground) const {
    if (!model.body_scene) return false;
    const geom::Hit hit =
        model.body_scene->first_hit({{p.x, p.y, ground + kClear}, {0.0, 0.0, 1.0}, 0.0, 1e6});
    if (!hit || hit.id == kGroundId) return false;
    const bool closed = model.parts[static_cast<std::size_t>(hit.id)].closed;
    // Leaving a solid upwards: the place is inside it.
    if (closed && hit.normal.z > 0.0) return true;
    return hit.t + kClear < body_height;
  }

  bool usable(Vec2 p, double ground, Vec2 gradient) const {
    if (length(gradient) > steepest) return false;
    for (const geom::Polygon& c : covered)
      if (geom::contains(c, p)) return false;
    return !under_water(p, ground) && !blocked_above(p, ground);
  }
};

geom::Polygon footprint(const Den& den) {
  const Vec2 ahead{std::cos(den.turn), std::sin(den.turn)};
  const Vec2 aside = geom::left_of(ahead);
  const Vec2 u = ahead * (0.5 * den.size.x);
  const Vec2 v = aside * (0.5 * den.size.y);
  return {den.at - u - v, den.at + u - v, den.at + u + v, den.at - u + v};
}

Judge make_judge(const Model& model) {
  Judge judge{model, 0.0, 0.0, {}, {}};
  judge.steepest = std::tan(model.site.species.stand_slope.value) * (1.0 + 1e-9) + 1e-12;
  judge.body_height = model.site.species.body.value[2];
  for (const Den& den : model.site.dens) judge.covered.push_back(footprint(den));
  for (const House& house : model.site.houses) judge.covered.push_back(house.outline);
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::water || part.mesh.empty() || part.source < 0) continue;
    const Water& water = model.site.waters[static_cast<std::size_t>(part.source)];
    judge.basins.push_back(
        {water.outline, geom::bounds(water.outline), geom::bounds(part.mesh).hi.z});
  }
  return judge;
}

Vec2 middle(const geom::Convex& c) {
  Vec2 sum;
  for (int k = 0; k < c.n; ++k) sum = sum + c[k];
  return sum * (1.0 / c.n);
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

double usable_area(const Model& model) {
  const Judge judge = make_judge(model);
  const std::vector<geom::Convex> work = strips(model);
  std::vector<double> areas(work.size(), 0.0);
  tbb::parallel_for(std::size_t{0}, work.size(), [&](std::size_t k) {
    geom::overlay_with_ground(model.ground, work[k],
                              [&](const geom::Convex& piece, const geom::Linear& ground) {
                                const Vec2 p = middle(piece);
                                if (judge.usable(p, ground(p), ground.g))
                                  areas[k] += geom::area(piece);
                              });
  });
  double total = 0.0;
  for (const double a : areas) total += a;
  return total;
}

}  // namespace hummock::space
