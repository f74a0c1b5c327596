#include "engine/model/build/wall_mesh.h"

#include <algorithm>
#include <cmath>

namespace hummock {
namespace {

using geom::Vec2;

double foot_at(const Wall& wall, double t) {
  const auto next = std::upper_bound(wall.along.begin(), wall.along.end(), t);
  if (next == wall.along.begin()) return wall.foot.front();
  if (next == wall.along.end()) return wall.foot.back();
  const auto k = static_cast<std::size_t>(next - wall.along.begin());
  const double u = (t - wall.along[k - 1]) / (wall.along[k] - wall.along[k - 1]);
  return wall.foot[k - 1] + (wall.foot[k] - wall.foot[k - 1]) * u;
}

double top_at(const Wall& wall, double t) {
  return wall.top_a + (wall.top_b - wall.top_a) * t;
}

// Where the foot crosses the level or the line from y0 (at 0) to y1 (at 1).
void add_crossings(const Wall& wall, double y0, double y1, std::vector<double>& cuts) {
  for (std::size_t k = 0; k + 1 < wall.along.size(); ++k) {
    const double d0 = wall.foot[k] - (y0 + (y1 - y0) * wall.along[k]);
    const double d1 = wall.foot[k + 1] - (y0 + (y1 - y0) * wall.along[k + 1]);
    if ((d0 < 0.0) == (d1 < 0.0) || d0 == d1) continue;
    cuts.push_back(wall.along[k] + (wall.along[k + 1] - wall.along[k]) * (d0 / (d0 - d1)));
  }
}

std::vector<double> cuts_of(const Wall& wall) {
  std::vector<double> cuts = wall.along;
  add_crossings(wall, wall.top_a, wall.top_b, cuts);
  for (const WallHole& hole : wall.holes) {
    cuts.push_back(std::clamp(hole.from, 0.0, 1.0));
    cuts.push_back(std::clamp(hole.to, 0.0, 1.0));
    add_crossings(wall, hole.bottom, hole.bottom, cuts);
    add_crossings(wall, hole.top, hole.top, cuts);
  }
  std::sort(cuts.begin(), cuts.end());
  const auto same = [](double s, double r) { return r - s < 1e-12; };
  cuts.erase(std::unique(cuts.begin(), cuts.end(), same), cuts.end());
  cuts.back() = 1.0;
  return cuts;
}

struct Side {
  double t, lo, hi;
};

void append_piece(geom::Mesh& mesh, const Wall& wall, const Side& l, const Side& r) {
  const double hi_l = std::max(l.lo, l.hi);
  const double hi_r = std::max(r.lo, r.hi);
  const Vec2 p = geom::lerp(wall.a, wall.b, l.t);
  const Vec2 q = geom::lerp(wall.a, wall.b, r.t);
  const auto v = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), {geom::at_height(p, l.lo), geom::at_height(q, r.lo),
                                             geom::at_height(q, hi_r), geom::at_height(p, hi_l)});
  if (hi_r > r.lo) mesh.triangles.push_back({v, v + 1, v + 2});
  if (hi_l > l.lo) mesh.triangles.push_back({v, v + 2, v + 3});
}

// The solid stretches of the wall over the slice between t0 and t1, from the foot up.
void append_slice(geom::Mesh& mesh, const Wall& wall, double t0, double t1) {
  Side l{t0, foot_at(wall, t0), top_at(wall, t0)};
  Side r{t1, foot_at(wall, t1), top_at(wall, t1)};
  std::vector<WallHole> over;
  const double middle = 0.5 * (t0 + t1);
  for (const WallHole& hole : wall.holes) {
    if (hole.from < middle && middle < hole.to) over.push_back(hole);
  }
  std::sort(over.begin(), over.end(),
            [](const WallHole& x, const WallHole& y) { return x.bottom < y.bottom; });
  for (const WallHole& hole : over) {
    append_piece(mesh, wall, {t0, l.lo, std::min(l.hi, hole.bottom)},
                 {t1, r.lo, std::min(r.hi, hole.bottom)});
    l.lo = std::max(l.lo, hole.top);
    r.lo = std::max(r.lo, hole.top);
  }
  append_piece(mesh, wall, l, r);
}

}  // namespace

Wall wall_on_ground(const geom::Heightfield& ground, Vec2 a, Vec2 b, double top_a, double top_b) {
  Wall wall{.a = a,
            .b = b,
            .along = geom::ground_breaks(ground, a, b),
            .foot = {},
            .top_a = top_a,
            .top_b = top_b,
            .holes = {}};
  for (double t : wall.along) wall.foot.push_back(geom::height_at(ground, geom::lerp(a, b, t)));
  return wall;
}

Wall straight_wall(Vec2 a, Vec2 b, double foot_a, double foot_b, double top_a, double top_b) {
  return {.a = a,
          .b = b,
          .along = {0.0, 1.0},
          .foot = {foot_a, foot_b},
          .top_a = top_a,
          .top_b = top_b,
          .holes = {}};
}

Wall raised_foot(const Wall& wall, double rail_a, double rail_b) {
  constexpr double kOnFoot = 1e-9;  // m
  const auto over = [&](std::size_t k) {
    return rail_a + (rail_b - rail_a) * wall.along[k] - wall.foot[k];
  };
  Wall out = wall;
  out.along.clear();
  out.foot.clear();
  for (std::size_t k = 0; k < wall.along.size(); ++k) {
    if (k > 0 && (over(k - 1) > kOnFoot) != (over(k) > kOnFoot)) {
      const double share = std::clamp(over(k - 1) / (over(k - 1) - over(k)), 0.0, 1.0);
      const double t = wall.along[k - 1] + (wall.along[k] - wall.along[k - 1]) * share;
      if (t > out.along.back() && t < wall.along[k]) {
        out.along.push_back(t);
        out.foot.push_back(rail_a + (rail_b - rail_a) * t);
      }
    }
    out.along.push_back(wall.along[k]);
    out.foot.push_back(wall.foot[k] + (over(k) > kOnFoot ? over(k) : 0.0));
  }
  return out;
}

void append_wall(geom::Mesh& mesh, const Wall& wall) {
  const std::vector<double> cuts = cuts_of(wall);
  for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
    append_slice(mesh, wall, cuts[k], cuts[k + 1]);
  }
}

}  // namespace hummock
