#include "engine/usable/thing_lines.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/mesh/level_cut.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::usable {
namespace {

bool stands_in_the_yard(const Part& part) {
  const bool thing = part.kind == PartKind::object || part.kind == PartKind::planting ||
                     part.kind == PartKind::crown;
  return thing && part.blocks_body && !part.mesh.empty();
}

// From `low` over the lowest of the ground at its corners to `high` over the highest.
void add_face(const geom::LevelFace& whole, double low, double high, std::vector<PlanLine>& lines) {
  const geom::LevelFace face = geom::between_levels(whole, low, high);
  for (std::size_t k = 0; k < face.size; ++k)
    lines.push_back({xy(face.corners[k]), xy(face.corners[(k + 1) % face.size])});
}

}  // namespace

void add_lines_of(const Model& model, const Part& part, double low, double high,
                  std::vector<PlanLine>& lines) {
  const std::vector<Vec3>& vertices = part.mesh.vertices;
  std::vector<double> ground;
  ground.reserve(vertices.size());
  for (const Vec3& v : vertices) ground.push_back(geom::height_at(model.ground, xy(v)));
  for (const geom::Triangle& t : part.mesh.triangles) {
    geom::LevelFace face;
    double least = 1e300, most = -1e300;
    for (const std::uint32_t v : t) {
      face.add(vertices[v]);
      least = std::min(least, ground[v]);
      most = std::max(most, ground[v]);
    }
    add_face(face, least + low, most + high, lines);
  }
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
