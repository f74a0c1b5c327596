#include "engine/entry/level_cuts.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

void add_pieces(const Corners& c, std::vector<Corners>& pieces) {
  std::size_t longest = 0;
  std::array<double, 3> side{};
  for (std::size_t k = 0; k < 3; ++k) side[k] = geom::distance(c[k], c[(k + 1) % 3]);
  for (std::size_t k = 1; k < 3; ++k) {
    if (side[k] > side[longest]) longest = k;
  }
  if (side[longest] <= kPiece) {
    pieces.push_back(c);
    return;
  }
  const Vec3 a = c[longest], b = c[(longest + 1) % 3], rest = c[(longest + 2) % 3];
  const Vec3 middle = lerp(a, b, 0.5);
  add_pieces({a, middle, rest}, pieces);
  add_pieces({middle, b, rest}, pieces);
}

bool within_reach(const Corners& c, double reach) {
  const auto [x0, x1] = std::minmax({c[0].x, c[1].x, c[2].x});
  const auto [y0, y1] = std::minmax({c[0].y, c[1].y, c[2].y});
  return x1 >= -reach && x0 <= reach && y1 >= -reach && y0 <= reach;
}

}  // namespace

std::vector<Corners> pieces_of(const Model& model, const std::vector<geom::Mesh>& things,
                               const Doorway& doorway, double reach) {
  const Vec2 out = -left_of(doorway.along);
  const auto local = [&](Vec3 p) {
    const Vec2 d = xy(p) - doorway.middle;
    return Vec3{dot(d, doorway.along), dot(d, out), p.z};
  };
  std::vector<Corners> pieces;
  for (const geom::Mesh& mesh : things) {
    for (const geom::Triangle& t : mesh.triangles) {
      const Corners c{local(mesh.vertices[t[0]]), local(mesh.vertices[t[1]]),
                      local(mesh.vertices[t[2]])};
      if (within_reach(c, reach)) add_pieces(c, pieces);
    }
  }
  for (Corners& c : pieces) {
    for (Vec3& p : c) {
      const Vec2 at = doorway.middle + doorway.along * p.x + out * p.y;
      p.z -= geom::height_at(model.ground, at);
    }
  }
  return pieces;
}

bool cut_level(const Corners& c, double height, std::array<Vec2, 2>& ends) {
  std::size_t n = 0;
  for (std::size_t k = 0; k < 3 && n < 2; ++k) {
    const Vec3 p = c[k], q = c[(k + 1) % 3];
    if ((p.z >= height) == (q.z >= height)) continue;
    ends[n++] = xy(lerp(p, q, (height - p.z) / (q.z - p.z)));
  }
  return n == 2;
}

bool Near::holds(Vec2 p) const {
  constexpr double kRounding = 1e-9;  // more than squaring may be off
  const double t = l2_ > 0.0 ? std::clamp(dot(p - a_, ab_) / l2_, 0.0, 1.0) : 0.0;
  const Vec2 off = p - (a_ + ab_ * t);
  const double d2 = dot(off, off), r2 = distance_ * distance_;
  if (std::abs(d2 - r2) > kRounding * r2) return d2 < r2;
  return geom::distance_to_segment(p, a_, b_) < distance_;
}

}  // namespace hummock::entry
