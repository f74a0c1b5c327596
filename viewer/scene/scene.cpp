#include "viewer/scene/scene.h"

#include <meshoptimizer.h>

#include <algorithm>
#include <cmath>

#include "viewer/scene/material.h"
#include "viewer/scene/tone.h"

namespace hummock::viewer {
namespace {

using geom::Vec2;
using geom::Vec3;

constexpr double kCrease = 0.766;     // cos 40°
constexpr double kBlockDepth = 0.55;  // m of earth shown below the lowest ground

std::array<float, 3> narrow(Vec3 v) {
  return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

// Triangles round each vertex as one flat list.
struct Fans {
  std::vector<std::uint32_t> first;
  std::vector<std::uint32_t> triangle;
};

Fans fans_of(const geom::Mesh& mesh) {
  Fans fans;
  fans.first.assign(mesh.vertices.size() + 1, 0);
  for (const auto& t : mesh.triangles)
    for (const auto v : t) ++fans.first[v + 1];
  for (std::size_t v = 1; v < fans.first.size(); ++v) fans.first[v] += fans.first[v - 1];
  fans.triangle.resize(fans.first.back());
  std::vector<std::uint32_t> next(fans.first.begin(), fans.first.end() - 1);
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t)
    for (const auto v : mesh.triangles[t]) fans.triangle[next[v]++] = t;
  return fans;
}

// Coarser indices on the same vertices: about kPlenty / 2 triangles.
std::vector<std::uint32_t> coarser(const Drawable& d) {
  if (d.indices.size() / 3 <= kPlenty) return {};
  const std::size_t target = kPlenty / 2 * 3;
  std::vector<std::uint32_t> out(d.indices.size());
  out.resize(meshopt_simplifySloppy(out.data(), d.indices.data(), d.indices.size(),
                                    d.vertices[0].position.data(), d.vertices.size(),
                                    sizeof(Vertex), target, 1e9F, nullptr));
  return out;
}

void index_cells(std::vector<std::uint32_t>& indices, const geom::Grid& grid, int step) {
  for (int j = 0; j + 1 < grid.ny; j += step)
    for (int i = 0; i + 1 < grid.nx; i += step) {
      const int i1 = std::min(i + step, grid.nx - 1);
      const int j1 = std::min(j + step, grid.ny - 1);
      const auto at = [&](int x, int y) { return static_cast<std::uint32_t>(grid.index(x, y)); };
      for (const auto v : {at(i, j), at(i1, j), at(i, j1), at(i1, j1), at(i, j1), at(i1, j)})
        indices.push_back(v);
    }
}

Drawable ground_of(const geom::Heightfield& ground) {
  Drawable d;
  d.name = "ground";
  d.pattern = Pattern::ground;
  d.colour = tone::ground_inside();
  const auto& grid = ground.grid;
  d.vertices.reserve(grid.size());
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      const int w = std::max(i - 1, 0);
      const int e = std::min(i + 1, grid.nx - 1);
      const int s = std::max(j - 1, 0);
      const int n = std::min(j + 1, grid.ny - 1);
      const double dx = (ground.at(e, j) - ground.at(w, j)) / ((e - w) * grid.cell);
      const double dy = (ground.at(i, n) - ground.at(i, s)) / ((n - s) * grid.cell);
      const Vec2 p = grid.node(i, j);
      d.vertices.push_back(
          {narrow({p.x, p.y, ground.at(i, j)}), narrow(geom::unit(Vec3{-dx, -dy, 1.0}))});
    }
  index_cells(d.indices, grid, 1);
  const double cells = static_cast<double>(d.indices.size()) / 6.0;
  const int step = static_cast<int>(std::ceil(std::sqrt(cells / (kPlenty / 2.0))));
  if (step > 1) index_cells(d.coarse, grid, step);
  return d;
}

// Sides and underside: the ground drawn as a block of earth standing on the paper.
Drawable block_of(const geom::Heightfield& ground) {
  Drawable d;
  d.name = "earth";
  d.colour = tone::soil();
  d.closed = true;
  const auto& grid = ground.grid;
  const double bottom = *std::min_element(ground.z.begin(), ground.z.end()) - kBlockDepth;
  geom::Mesh sides;
  const auto node = [&](int i, int j) { return geom::at_height(grid.node(i, j), ground.at(i, j)); };
  const auto wall = [&](Vec3 a, Vec3 b) {
    geom::append_quad(sides, {a.x, a.y, bottom}, {b.x, b.y, bottom}, b, a);
  };
  for (int i = 0; i + 1 < grid.nx; ++i) {
    wall(node(i, 0), node(i + 1, 0));
    wall(node(i + 1, grid.ny - 1), node(i, grid.ny - 1));
  }
  for (int j = 0; j + 1 < grid.ny; ++j) {
    wall(node(grid.nx - 1, j), node(grid.nx - 1, j + 1));
    wall(node(0, j + 1), node(0, j));
  }
  const Vec2 lo = grid.node(0, 0);
  const Vec2 hi = grid.node(grid.nx - 1, grid.ny - 1);
  geom::append_quad(sides, {lo.x, lo.y, bottom}, {lo.x, hi.y, bottom}, {hi.x, hi.y, bottom},
                    {hi.x, lo.y, bottom});
  add_triangles(d, sides);
  return d;
}

// Four samples a texel, each inside or out.
void mark_inside(Scene& scene, const Model& model) {
  const auto& grid = model.ground.grid;
  const double w = grid.x_max() - grid.x0;
  const double h = grid.y_max() - grid.y0;
  const double longest = std::max({w, h, 1e-9});
  scene.inside_width = std::max(1, static_cast<int>(384.0 * w / longest));
  scene.inside_height = std::max(1, static_cast<int>(384.0 * h / longest));
  for (int j = 0; j < scene.inside_height; ++j)
    for (int i = 0; i < scene.inside_width; ++i) {
      int in = 0;
      for (int k = 0; k < 4; ++k) {
        const double u = (i + 0.25 + 0.5 * (k & 1)) / scene.inside_width;
        const double v = (j + 0.25 + 0.5 * (k >> 1)) / scene.inside_height;
        in += geom::contains(model.outline, {grid.x0 + u * w, grid.y0 + v * h}) ? 1 : 0;
      }
      scene.inside.push_back(static_cast<std::uint8_t>(in * 255 / 4));
    }
}

bool same_ground(const Model& a, const Model& b) {
  return a.ground.grid == b.ground.grid && a.ground.z == b.ground.z;
}

bool same_mesh(const geom::Mesh& a, const geom::Mesh& b) {
  return a.triangles == b.triangles && a.vertices == b.vertices;
}

void draw_ground(Scene& scene, const Model& model, const Drawn* before) {
  const bool kept = before != nullptr && same_ground(model, before->model);
  scene.drawables.push_back(kept ? before->scene.drawables[0] : ground_of(model.ground));
  scene.drawables.push_back(kept ? before->scene.drawables[1] : block_of(model.ground));
  for (Drawable& d : scene.drawables) d.open.clear();
  if (!kept || model.outline != before->model.outline) return mark_inside(scene, model);
  scene.inside_width = before->scene.inside_width;
  scene.inside_height = before->scene.inside_height;
  scene.inside = before->scene.inside;
}

// How that part was drawn, if its mesh is as it was.
const Drawable* kept_part(const Part& part, std::int32_t index, const Drawn* before) {
  if (before == nullptr || index >= static_cast<std::int32_t>(before->model.parts.size()))
    return nullptr;
  if (!same_mesh(before->model.parts[static_cast<std::size_t>(index)].mesh, part.mesh))
    return nullptr;
  const std::vector<Drawable>& drawn = before->scene.drawables;  // in the order of their parts
  const auto at = std::lower_bound(drawn.begin(), drawn.end(), index,
                                   [](const Drawable& d, std::int32_t p) { return d.part < p; });
  return at != drawn.end() && at->part == index ? &*at : nullptr;
}

Drawable drawn_part(const Part& part, std::int32_t index, const Drawn* before) {
  Drawable d;
  d.name = part.name;
  d.part = index;
  dress(d, part);
  if (const Drawable* kept = kept_part(part, index, before)) {
    d.vertices = kept->vertices;
    d.indices = kept->indices;
    d.coarse = kept->coarse;
  } else {
    add_triangles(d, part.mesh);
    d.coarse = coarser(d);
  }
  return d;
}

Vec3 middle_of(const Drawable& d) {
  geom::Box3 box;
  for (const auto& v : d.vertices) box.add(Vec3{v.position[0], v.position[1], v.position[2]});
  return box.empty() ? Vec3{} : box.centre();
}

}  // namespace

void add_triangles(Drawable& d, const geom::Mesh& mesh) {
  const Fans fans = fans_of(mesh);
  std::vector<Vec3> area(mesh.triangles.size());
  for (std::size_t t = 0; t < area.size(); ++t) {
    const auto& [a, b, c] = mesh.triangles[t];
    area[t] = geom::cross(mesh.vertices[b] - mesh.vertices[a], mesh.vertices[c] - mesh.vertices[a]);
  }
  for (std::size_t t = 0; t < area.size(); ++t)
    for (const auto v : mesh.triangles[t]) {
      const Vec3 own = geom::unit(area[t]);
      Vec3 sum;
      for (auto k = fans.first[v]; k < fans.first[v + 1]; ++k) {
        const Vec3 other = area[fans.triangle[k]];
        if (geom::dot(geom::unit(other), own) > kCrease) sum = sum + other;
      }
      d.indices.push_back(static_cast<std::uint32_t>(d.vertices.size()));
      d.vertices.push_back({narrow(mesh.vertices[v]),
                            narrow(geom::length(sum) > 0.0 ? geom::unit(sum) : Vec3{0, 0, 1})});
    }
}

Scene build_scene(const Model& model, const Drawn* before) {
  Scene scene;
  draw_ground(scene, model, before);
  for (std::size_t p = 0; p < model.parts.size(); ++p) {
    const Part& part = model.parts[p];
    if (part.mesh.empty() || part.kind == PartKind::ground) continue;
    if (part.kind != PartKind::surrounding) scene.yard.add(geom::bounds(part.mesh));
    scene.drawables.push_back(drawn_part(part, static_cast<std::int32_t>(p), before));
  }
  for (const Vec2 p : model.outline)
    scene.yard.add(geom::at_height(p, geom::height_at(model.ground, p)));
  for (auto& d : scene.drawables) {
    d.middle = middle_of(d);
    scene.triangles += d.indices.size() / 3;
    for (const auto& v : d.vertices)
      scene.box.add(Vec3{v.position[0], v.position[1], v.position[2]});
  }
  return scene;
}

}  // namespace hummock::viewer
