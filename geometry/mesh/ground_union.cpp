#include "geometry/mesh/ground_union.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "geometry/mesh/column_solid.h"

namespace hummock::geom {
namespace {

constexpr double kAbove = 1e-3;  // m: a face this far above the ground meets it nowhere
constexpr std::uint32_t kUnused = 0xFFFFFFFFU;

Polygon ring_of(const Grid& g) {
  return {{g.x0, g.y0}, {g.x_max(), g.y0}, {g.x_max(), g.y_max()}, {g.x0, g.y_max()}};
}

struct CellRange {
  int i0, j0, i1, j1;  // both ends count
};

// The cells that solids may meet.
class NearCells {
 public:
  explicit NearCells(const Heightfield& ground)
      : ground_(ground),
        nx_(ground.grid.nx - 1),
        ny_(ground.grid.ny - 1),
        near_(static_cast<std::size_t>(nx_) * static_cast<std::size_t>(ny_), 0) {}

  // False when a low face lies over the outermost cells or beyond.
  bool add(const Mesh& solid) {
    for (const auto& [a, b, c] : solid.triangles) {
      Box3 box;
      for (const std::uint32_t v : {a, b, c}) box.add(solid.vertices[v]);
      const CellRange cells = around(box);
      if (box.lo.z > highest(cells) + kAbove) continue;
      if (!inside(box)) return false;
      for (int j = cells.j0; j <= cells.j1; ++j)
        for (int i = cells.i0; i <= cells.i1; ++i) near_[index(i, j)] = 1;
    }
    return true;
  }

  // Cells that meet in a corner only would pinch the block: their neighbours are taken as well.
  void unpinch() {
    for (bool again = true; again;) {
      again = false;
      for (int j = 0; j + 1 < ny_; ++j)
        for (int i = 0; i + 1 < nx_; ++i) again = unpinch_at(i, j) || again;
    }
  }

  bool at(int i, int j) const {
    return i >= 0 && j >= 0 && i < nx_ && j < ny_ && near_[index(i, j)] != 0;
  }
  int nx() const { return nx_; }
  int ny() const { return ny_; }

 private:
  std::size_t index(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(nx_) +
           static_cast<std::size_t>(i);
  }
  CellRange around(const Box3& box) const {
    const Grid& g = ground_.grid;
    const auto cell = [&](double v, double from, int more, int last) {
      return static_cast<int>(std::clamp(std::floor((v - from) / g.cell) + more, 0.0, 1.0 * last));
    };
    return {cell(box.lo.x, g.x0, -1, nx_ - 1), cell(box.lo.y, g.y0, -1, ny_ - 1),
            cell(box.hi.x, g.x0, 1, nx_ - 1), cell(box.hi.y, g.y0, 1, ny_ - 1)};
  }
  double highest(const CellRange& cells) const {
    double z = -1e300;
    for (int j = cells.j0; j <= cells.j1 + 1; ++j)
      for (int i = cells.i0; i <= cells.i1 + 1; ++i) z = std::max(z, ground_.at(i, j));
    return z;
  }
  bool inside(const Box3& box) const {
    const Grid& g = ground_.grid;
    return box.lo.x > g.x0 + g.cell && box.hi.x < g.x_max() - g.cell && box.lo.y > g.y0 + g.cell &&
           box.hi.y < g.y_max() - g.cell;
  }
  bool unpinch_at(int i, int j) {
    std::array<char*, 4> four{&near_[index(i, j)], &near_[index(i + 1, j)],
                              &near_[index(i + 1, j + 1)], &near_[index(i, j + 1)]};
    const bool pinched = *four[0] == *four[2] && *four[1] == *four[3] && *four[0] != *four[1];
    if (pinched)
      for (char* cell : four) *cell = 1;
    return pinched;
  }

  const Heightfield& ground_;
  int nx_, ny_;
  std::vector<char> near_;
};

// The cells' two triangles, as the ground has them, appended to a mesh.
class Tops {
 public:
  Tops(const Heightfield& ground, Mesh& mesh)
      : ground_(ground), mesh_(mesh), id_(ground.grid.size(), kUnused) {}

  std::uint32_t vertex(int i, int j) {
    std::uint32_t& id = id_[ground_.grid.index(i, j)];
    if (id == kUnused) {
      id = static_cast<std::uint32_t>(mesh_.vertices.size());
      mesh_.vertices.push_back(at_height(ground_.grid.node(i, j), ground_.at(i, j)));
    }
    return id;
  }
  void add(int i, int j) {
    const std::uint32_t b = vertex(i + 1, j);
    const std::uint32_t d = vertex(i, j + 1);
    mesh_.triangles.push_back({vertex(i, j), b, d});
    mesh_.triangles.push_back({vertex(i + 1, j + 1), d, b});
  }

 private:
  const Heightfield& ground_;
  Mesh& mesh_;
  std::vector<std::uint32_t> id_;
};

struct Patch {
  Mesh block;
  std::size_t low_faces = 0;  // with a corner on the floor
};

// The near cells as a block: their tops, the same below at the floor, walls where a neighbour
// lacks.
Patch patch_of(const Heightfield& ground, const NearCells& near, double floor) {
  Patch patch;
  Mesh& block = patch.block;
  Tops tops(ground, block);
  std::vector<std::array<std::uint32_t, 2>> sides;
  for (int j = 0; j < near.ny(); ++j) {
    for (int i = 0; i < near.nx(); ++i) {
      if (!near.at(i, j)) continue;
      tops.add(i, j);
      const std::array<std::uint32_t, 4> corner{tops.vertex(i, j), tops.vertex(i + 1, j),
                                                tops.vertex(i + 1, j + 1), tops.vertex(i, j + 1)};
      if (!near.at(i, j - 1)) sides.push_back({corner[0], corner[1]});
      if (!near.at(i + 1, j)) sides.push_back({corner[1], corner[2]});
      if (!near.at(i, j + 1)) sides.push_back({corner[2], corner[3]});
      if (!near.at(i - 1, j)) sides.push_back({corner[3], corner[0]});
    }
  }
  const auto n = static_cast<std::uint32_t>(block.vertices.size());
  const std::size_t faces = block.triangles.size();
  for (std::uint32_t v = 0; v < n; ++v)
    block.vertices.push_back(at_height(xy(block.vertices[v]), floor));
  for (std::size_t f = 0; f < faces; ++f) {
    const auto [a, b, c] = block.triangles[f];
    block.triangles.push_back({a + n, c + n, b + n});
  }
  for (const auto& [a, b] : sides) {
    block.triangles.push_back({a + n, b + n, b});
    block.triangles.push_back({a + n, b, a});
  }
  patch.low_faces = block.triangles.size() - faces;
  return patch;
}

// What is left without the faces that have a corner on the floor, and their corners; `off` counts
// them.
Mesh without_low_faces(const Mesh& mesh, double floor, std::size_t& off) {
  Mesh left;
  std::vector<std::uint32_t> moved(mesh.vertices.size(), kUnused);
  for (Triangle t : mesh.triangles) {
    const bool low = std::any_of(t.begin(), t.end(),
                                 [&](std::uint32_t v) { return mesh.vertices[v].z == floor; });
    if (low) {
      ++off;
      continue;
    }
    for (std::uint32_t& v : t) {
      if (moved[v] == kUnused) {
        moved[v] = static_cast<std::uint32_t>(left.vertices.size());
        left.vertices.push_back(mesh.vertices[v]);
      }
      v = moved[v];
    }
    left.triangles.push_back(t);
  }
  return left;
}

// The united patch among the untouched cells, closed below; nothing when they do not join.
std::optional<Mesh> set_back(const Heightfield& ground, const NearCells& near, const Mesh& united,
                             double floor) {
  Mesh sheet;
  Tops tops(ground, sheet);
  for (int j = 0; j < near.ny(); ++j)
    for (int i = 0; i < near.nx(); ++i)
      if (!near.at(i, j)) tops.add(i, j);
  append(sheet, united);
  sheet = weld(sheet, 0.0);
  const Polygon ring = ring_of(ground.grid);
  std::optional<Mesh> solid = solid_between(flat_sheet(ring, floor), sheet, ring);
  if (solid && !is_closed(*solid)) solid.reset();
  return solid;
}

}  // namespace

Solid unite_with_whole_ground(const Heightfield& ground, double floor,
                              const std::vector<Mesh>& solids) {
  const Polygon ring = ring_of(ground.grid);
  const auto block = solid_between(flat_sheet(ring, floor), ground_mesh(ground), ring);
  std::vector<Mesh> all = solids;
  all.push_back(block ? *block : Mesh{});
  return unite(all, Operands::checked);
}

Solid unite_with_ground(const Heightfield& ground, double floor, const std::vector<Mesh>& solids) {
  NearCells near(ground);
  for (const Mesh& solid : solids)
    if (!near.add(solid)) return unite_with_whole_ground(ground, floor, solids);
  near.unpinch();
  Patch patch = patch_of(ground, near, floor);
  std::vector<Mesh> all = solids;
  if (!patch.block.empty()) all.push_back(std::move(patch.block));
  Solid united = unite(all, Operands::checked);
  if (!united.ok) return united;
  std::size_t off = 0;
  const Mesh left = without_low_faces(united.mesh, floor, off);
  std::optional<Mesh> solid;
  if (off == patch.low_faces) solid = set_back(ground, near, left, floor);
  if (!solid) return unite_with_whole_ground(ground, floor, solids);
  united.mesh = std::move(*solid);
  united.volume = signed_volume(united.mesh);
  return united;
}

}  // namespace hummock::geom
