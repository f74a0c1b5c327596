#include "engine/model/shapes/solids.h"

#include <cmath>
#include <map>
#include <utility>

#include "engine/model/shapes/steady_turn.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock {

using geom::Mesh;
using geom::Triangle;
using geom::Vec2;
using geom::Vec3;

Mesh box_solid(Vec3 size) {
  const double x = size.x / 2;
  const double y = size.y / 2;
  return prism({{-x, -y}, {x, -y}, {x, y}, {-x, y}}, 0.0, size.z);
}

Mesh round_solid(double diameter, double lo, double hi, int sides) {
  geom::Polygon ring;
  for (int k = 0; k < sides; ++k) {
    const CosSin t = steady_cos_sin(2.0 * geom::kPi * k / sides);
    ring.push_back(Vec2{t.cos, t.sin} * (diameter / 2));
  }
  return prism(ring, lo, hi);
}

Mesh lying_round_solid(double diameter, double length, int sides) {
  Mesh mesh = round_solid(diameter, -length / 2, length / 2, sides);
  for (Vec3& v : mesh.vertices) v = {v.z, v.x, v.y};
  return mesh;
}

Mesh cone_solid(double diameter, double lo, double hi, int sides) {
  Mesh mesh;
  for (int k = 0; k < sides; ++k) {
    const CosSin t = steady_cos_sin(2.0 * geom::kPi * k / sides);
    mesh.vertices.push_back({t.cos * diameter / 2, t.sin * diameter / 2, lo});
  }
  mesh.vertices.push_back({0, 0, lo});
  mesh.vertices.push_back({0, 0, hi});
  const auto n = static_cast<std::uint32_t>(sides);
  for (std::uint32_t k = 0; k < n; ++k) {
    const std::uint32_t next = (k + 1) % n;
    mesh.triangles.push_back({next, k, n});
    mesh.triangles.push_back({k, next, n + 1});
  }
  return mesh;
}

namespace {

Mesh icosahedron() {
  const double g = (1.0 + std::sqrt(5.0)) / 2.0;  // sqrt is exact to the bit in IEEE arithmetic
  Mesh m;
  m.vertices = {{-1, g, 0},  {1, g, 0},  {-1, -g, 0}, {1, -g, 0}, {0, -1, g},  {0, 1, g},
                {0, -1, -g}, {0, 1, -g}, {g, 0, -1},  {g, 0, 1},  {-g, 0, -1}, {-g, 0, 1}};
  m.triangles = {{0, 11, 5}, {0, 5, 1},  {0, 1, 7},   {0, 7, 10}, {0, 10, 11},
                 {1, 5, 9},  {5, 11, 4}, {11, 10, 2}, {10, 7, 6}, {7, 1, 8},
                 {3, 9, 4},  {3, 4, 2},  {3, 2, 6},   {3, 6, 8},  {3, 8, 9},
                 {4, 9, 5},  {2, 4, 11}, {6, 2, 10},  {8, 6, 7},  {9, 8, 1}};
  for (Vec3& v : m.vertices) v = unit(v);
  return m;
}

Mesh cut_in_four(const Mesh& mesh) {
  Mesh finer;
  finer.vertices = mesh.vertices;
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
  const auto middle = [&](std::uint32_t a, std::uint32_t b) {
    const auto next = static_cast<std::uint32_t>(finer.vertices.size());
    const auto [it, fresh] = middles.try_emplace(std::minmax(a, b), next);
    if (fresh) finer.vertices.push_back(unit(mesh.vertices[a] + mesh.vertices[b]));
    return it->second;
  };
  for (const Triangle& t : mesh.triangles) {
    const std::uint32_t ab = middle(t[0], t[1]);
    const std::uint32_t bc = middle(t[1], t[2]);
    const std::uint32_t ca = middle(t[2], t[0]);
    finer.triangles.insert(finer.triangles.end(),
                           {{t[0], ab, ca}, {t[1], bc, ab}, {t[2], ca, bc}, {ab, bc, ca}});
  }
  return finer;
}

}  // namespace

Mesh icosphere(int steps) {
  Mesh mesh = icosahedron();
  for (int k = 0; k < steps; ++k) mesh = cut_in_four(mesh);
  return mesh;
}

Mesh prism(const geom::Polygon& outline, double lo, double hi) {
  Mesh sheet;
  for (const auto& t : geom::triangles_of(outline)) {
    const auto v = static_cast<std::uint32_t>(sheet.vertices.size());
    for (Vec2 p : t) sheet.vertices.push_back(at_height(p, 0.0));
    sheet.triangles.push_back({v, v + 1, v + 2});
  }
  return thickened(geom::weld(sheet, 0.0), lo, hi);
}

Mesh thickened(const Mesh& sheet, double down, double up) {
  Mesh mesh;
  const auto n = static_cast<std::uint32_t>(sheet.vertices.size());
  for (double by : {up, down}) {
    for (Vec3 v : sheet.vertices) mesh.vertices.push_back({v.x, v.y, v.z + by});
  }
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> directed;
  for (const Triangle& t : sheet.triangles) {
    mesh.triangles.push_back(t);
    mesh.triangles.push_back({t[0] + n, t[2] + n, t[1] + n});
    for (std::size_t k = 0; k < 3; ++k) ++directed[{t[k], t[(k + 1) % 3]}];
  }
  for (const auto& [edge, count] : directed) {
    const auto [a, b] = edge;
    if (directed.contains({b, a})) continue;
    mesh.triangles.push_back({a, a + n, b + n});
    mesh.triangles.push_back({a, b + n, b});
  }
  return mesh;
}

namespace {

geom::Heightfield resampled(const geom::Heightfield& ground, const geom::Box2& area, double cell) {
  geom::Heightfield coarse = geom::level_ground(area, cell, 0.0);
  for (int j = 0; j < coarse.grid.ny; ++j) {
    for (int i = 0; i < coarse.grid.nx; ++i) {
      coarse.at(i, j) = geom::height_at(ground, coarse.grid.node(i, j));
    }
  }
  return coarse;
}

}  // namespace

Mesh draped(const geom::Heightfield& ground, const geom::Polygon& outline, double most_cells) {
  const geom::Box2 box = geom::bounds(outline);
  const bool within = geom::covers(ground, box.lo) && geom::covers(ground, box.hi);
  const double area = (box.hi.x - box.lo.x) * (box.hi.y - box.lo.y);
  const double cell = std::max(ground.grid.cell, std::sqrt(area / most_cells));
  if (within && cell == ground.grid.cell) return geom::ground_mesh(ground, outline);
  return geom::ground_mesh(resampled(ground, box, cell), outline);
}

}  // namespace hummock
