#include "engine/usable/thing_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::usable {
namespace {

bool stands_in_the_yard(const Part& part) {
  const bool thing = part.kind == PartKind::object || part.kind == PartKind::planting ||
                     part.kind == PartKind::crown;
  return thing && part.blocks_body && !part.mesh.empty();
}

// What of a convex face lies on the side of the level `z` that `sign` tells (1 above, -1 below).
std::vector<Vec3> beyond_level(const std::vector<Vec3>& face, double z, double sign) {
  std::vector<Vec3> out;
  for (std::size_t k = 0; k < face.size(); ++k) {
    const Vec3 p = face[k], q = face[(k + 1) % face.size()];
    const double from = sign * (p.z - z), to = sign * (q.z - z);
    if (from >= 0.0) out.push_back(p);
    if ((from < 0.0) != (to < 0.0)) out.push_back(p + (q - p) * (from / (from - to)));
  }
  return out;
}

void add_face(const Model& model, const std::array<Vec3, 3>& corners, double low, double high,
              std::vector<PlanLine>& lines) {
  double least = 1e300, most = -1e300;
  for (const Vec3& c : corners) {
    const double z = geom::height_at(model.ground, xy(c));
    least = std::min(least, z);
    most = std::max(most, z);
  }
  std::vector<Vec3> face(corners.begin(), corners.end());
  face = beyond_level(face, least + low, 1.0);
  if (!face.empty()) face = beyond_level(face, most + high, -1.0);
  for (std::size_t k = 0; k < face.size(); ++k)
    lines.push_back({xy(face[k]), xy(face[(k + 1) % face.size()])});
}

}  // namespace

void add_lines_of(const Model& model, const Part& part, double low, double high,
                  std::vector<PlanLine>& lines) {
  for (const auto& [a, b, c] : part.mesh.triangles)
    add_face(model, {part.mesh.vertices[a], part.mesh.vertices[b], part.mesh.vertices[c]}, low,
             high, lines);
}

std::vector<PlanLine> thing_lines(const Model& model, double low, double high) {
  std::vector<PlanLine> lines;
  for (const Part& part : model.parts)
    if (stands_in_the_yard(part)) add_lines_of(model, part, low, high, lines);
  return lines;
}

std::vector<double> distance_to_lines(const geom::Grid& grid, const std::vector<PlanLine>& lines,
                                      double within) {
  std::vector<double> out(grid.size(), std::numeric_limits<double>::infinity());
  const auto at = [&](double v, double from, int count) {
    return std::clamp(static_cast<int>(std::ceil((v - from) / grid.cell)), 0, count);
  };
  constexpr double kRounding = 1.0 + 1e-9;  // more than squaring may be off
  for (const auto& [a, b] : lines) {
    const Vec2 ab = b - a;
    const double l2 = dot(ab, ab);
    const auto [x0, x1] = std::minmax(a.x, b.x);
    const auto [y0, y1] = std::minmax(a.y, b.y);
    const int i1 = at(x1 + within, grid.x0, grid.nx), j1 = at(y1 + within, grid.y0, grid.ny);
    for (int j = at(y0 - within, grid.y0, grid.ny); j < j1; ++j)
      for (int i = at(x0 - within, grid.x0, grid.nx); i < i1; ++i) {
        double& least = out[grid.index(i, j)];
        const Vec2 p = grid.node(i, j);
        const double t = l2 > 0.0 ? std::clamp(dot(p - a, ab) / l2, 0.0, 1.0) : 0.0;
        const Vec2 to = p - (a + ab * t);
        const double most = std::min(least, within);
        if (dot(to, to) > most * most * kRounding) continue;  // most, without a root
        const double off = geom::distance_to_segment(p, a, b);
        if (off <= within) least = std::min(least, off);
      }
  }
  return out;
}

}  // namespace hummock::usable
