#include "engine/space/furniture.h"

#include <algorithm>
#include <numeric>

#include "geometry/disjoint_sets.h"
#include "geometry/mesh/boolean_cgal.h"
#include "geometry/mesh/star_solid.h"
#include "geometry/plan/plan_boxes.h"

namespace hummock::space {
namespace {

struct Piece {
  geom::Mesh mesh;
  geom::Box3 box;
  std::string name;
};

bool is_furniture(const Part& part) {
  switch (part.kind) {
    case PartKind::object:
    case PartKind::den:
    case PartKind::post:
    case PartKind::footing:
    case PartKind::vestibule:
    case PartKind::house:
      return part.blocks_body && !part.mesh.empty();
    default:
      return false;
  }
}

// A part may be several closed shells (a deck and its legs): one mesh for each.
std::vector<geom::Mesh> shells(const geom::Mesh& mesh) {
  geom::DisjointSets sets(mesh.vertices.size());
  for (const auto& [a, b, c] : mesh.triangles) {
    sets.join(a, b);
    sets.join(a, c);
  }
  std::vector<geom::Mesh> out;
  std::vector<std::int64_t> place(mesh.vertices.size(), -1);  // of a root: its shell
  std::vector<std::int64_t> index(mesh.vertices.size(), -1);  // of a vertex in its shell
  for (const geom::Triangle& t : mesh.triangles) {
    const std::size_t root = sets.root(t[0]);
    if (place[root] < 0) {
      place[root] = static_cast<std::int64_t>(out.size());
      out.emplace_back();
    }
    geom::Mesh& shell = out[static_cast<std::size_t>(place[root])];
    geom::Triangle moved{};
    for (std::size_t k = 0; k < 3; ++k) {
      if (index[t[k]] < 0) {
        index[t[k]] = static_cast<std::int64_t>(shell.vertices.size());
        shell.vertices.push_back(mesh.vertices[t[k]]);
      }
      moved[k] = static_cast<std::uint32_t>(index[t[k]]);
    }
    shell.triangles.push_back(moved);
  }
  return out;
}

bool overlap(const geom::Box3& a, const geom::Box3& b) {
  return a.lo.x <= b.hi.x && b.lo.x <= a.hi.x && a.lo.y <= b.hi.y && b.lo.y <= a.hi.y &&
         a.lo.z <= b.hi.z && b.lo.z <= a.hi.z;
}

bool reaches(const geom::Box3& box, const geom::Box2& yard) {
  return box.lo.x < yard.hi.x && yard.lo.x < box.hi.x && box.lo.y < yard.hi.y &&
         yard.lo.y < box.hi.y;
}

std::vector<Piece> collect(const Model& model, Furniture& out) {
  const geom::Box2 yard = geom::bounds(model.outline);
  std::vector<Piece> pieces;
  for (const Part& part : model.parts) {
    if (!is_furniture(part) || !reaches(geom::bounds(part.mesh), yard)) continue;
    if (!part.closed) {
      if (part.kind == PartKind::object) out.open.push_back(part.name);
      continue;
    }
    const bool tidy = geom::open_edges(part.mesh) == 0;
    for (geom::Mesh& shell : shells(tidy ? part.mesh : geom::weld(part.mesh, 1e-9))) {
      const geom::Box3 box = geom::bounds(shell);
      pieces.push_back({std::move(shell), box, part.name});
    }
  }
  return pieces;
}

// Pieces whose boxes overlap, directly or through others, as lists of indices in rising order.
std::vector<std::vector<std::size_t>> groups(const std::vector<Piece>& pieces) {
  geom::DisjointSets sets(pieces.size());
  std::vector<geom::Box2> plans;
  plans.reserve(pieces.size());
  for (const Piece& piece : pieces) plans.push_back({xy(piece.box.lo), xy(piece.box.hi)});
  const geom::PlanBoxes boxes(plans);
  for (std::uint32_t a = 0; a < pieces.size(); ++a)
    for (const std::size_t b : boxes.meeting(plans[a]))
      if (b > a && overlap(pieces[a].box, pieces[b].box))
        sets.join(a, static_cast<std::uint32_t>(b));
  std::vector<std::vector<std::size_t>> out(pieces.size());
  for (std::uint32_t k = 0; k < pieces.size(); ++k) out[sets.root(k)].push_back(k);
  std::erase_if(out, [](const auto& group) { return group.empty(); });
  return out;
}

}  // namespace

Furniture find_furniture(const Model& model) {
  Furniture out;
  const std::vector<Piece> pieces = collect(model, out);
  for (const std::vector<std::size_t>& group : groups(pieces)) {
    if (group.size() == 1 && geom::is_star_solid(pieces[group.front()].mesh)) {
      out.solids.push_back(pieces[group.front()].mesh);
      continue;
    }
    std::vector<geom::Mesh> meshes;
    meshes.reserve(group.size());
    for (const std::size_t k : group) meshes.push_back(pieces[k].mesh);
    geom::Solid solid = geom::unite(meshes);
    if (solid.ok) {
      out.solids.push_back(std::move(solid.mesh));
    } else if (out.failed.empty()) {
      out.failed = "'" + pieces[group.front()].name + "'" +
                   (group.size() > 1 ? " and what it touches" : "") + ": " + solid.reason;
    }
  }
  for (const Piece& piece : pieces) out.pieces.push_back(piece.mesh);
  return out;
}

}  // namespace hummock::space
