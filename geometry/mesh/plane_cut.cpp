#include "geometry/mesh/plane_cut.h"

#include <array>

namespace hummock::geom {
namespace {

// A point by its distance left of the plane and its place in it.
struct Seen {
  double off = 0.0;
  Vec2 in;  // (s, z)
};

Seen seen(Vec3 p, const UprightPlane& plane) {
  const Vec2 u = plane.along();
  const Vec2 d = xy(p) - plane.a;
  return {cross(u, d), {dot(u, d), p.z}};
}

bool clip(CutLine& line, double lo, double hi) {
  if (line.from.x > line.to.x) std::swap(line.from, line.to);
  if (line.to.x < lo || line.from.x > hi) return false;
  const CutLine whole = line;
  const double run = whole.to.x - whole.from.x;
  if (run > 0.0) {
    if (whole.from.x < lo) line.from = lerp(whole.from, whole.to, (lo - whole.from.x) / run);
    if (whole.to.x > hi) line.to = lerp(whole.from, whole.to, (hi - whole.from.x) / run);
  }
  return true;
}

void cut_triangle(const std::array<Seen, 3>& t, std::vector<CutLine>& lines) {
  std::vector<Vec2> ends;
  for (std::size_t k = 0; k < 3; ++k) {
    const Seen& p = t[k];
    const Seen& q = t[(k + 1) % 3];
    if (p.off == 0.0 && q.off == 0.0) {
      lines.push_back({p.in, q.in});
    } else if (p.off == 0.0) {
      ends.push_back(p.in);
    } else if ((p.off > 0.0) != (q.off > 0.0) && q.off != 0.0) {
      ends.push_back(lerp(p.in, q.in, p.off / (p.off - q.off)));
    }
  }
  if (ends.size() == 2) lines.push_back({ends[0], ends[1]});
}

}  // namespace

std::vector<CutLine> cut(const Mesh& mesh, const UprightPlane& plane, double s_from, double s_to) {
  std::vector<CutLine> all;
  for (const auto& [a, b, c] : mesh.triangles) {
    cut_triangle({seen(mesh.vertices[a], plane), seen(mesh.vertices[b], plane),
                  seen(mesh.vertices[c], plane)},
                 all);
  }
  std::vector<CutLine> kept;
  for (CutLine line : all) {
    if (clip(line, s_from, s_to)) kept.push_back(line);
  }
  return kept;
}

std::vector<Vec2> profile(const Heightfield& ground, const UprightPlane& plane, double s_from,
                          double s_to) {
  const Vec2 a = plane.at(s_from);
  const Vec2 b = plane.at(s_to);
  std::vector<Vec2> points;
  for (double t : ground_breaks(ground, a, b)) {
    points.push_back({s_from + t * (s_to - s_from), height_at(ground, lerp(a, b, t))});
  }
  return points;
}

}  // namespace hummock::geom
