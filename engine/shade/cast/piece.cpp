#include "engine/shade/cast/piece.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "engine/shade/cast/curtains.h"
#include "engine/shade/cast/flat_faces.h"

namespace hummock::shade {
namespace {

constexpr std::size_t kFacesAtOnce = 32;  // of a piece; layout of the work

Piece make_piece(PieceKind kind, const geom::Mesh& mesh, const FlatFace* faces, std::size_t count) {
  Piece p;
  p.kind = kind;
  std::map<std::uint32_t, std::uint32_t> place;
  for (std::size_t k = 0; k < count; ++k) {
    const auto first = static_cast<std::uint32_t>(p.corners.size());
    for (const std::uint32_t v : faces[k].corners) {
      const auto [at, fresh] = place.try_emplace(v, static_cast<std::uint32_t>(p.points.size()));
      if (fresh) {
        p.points.push_back(mesh.vertices[v]);
        p.box.add(mesh.vertices[v]);
      }
      p.corners.push_back(at->second);
    }
    p.faces.push_back(
        {first, static_cast<std::uint32_t>(faces[k].corners.size()), faces[k].normal});
  }
  return p;
}

// Halves along the longest side of the faces' middles until few enough are left.
void split(PieceKind kind, const geom::Mesh& mesh, FlatFace* faces, std::size_t count,
           std::vector<Piece>& pieces) {
  if (count <= kFacesAtOnce) {
    if (count > 0) pieces.push_back(make_piece(kind, mesh, faces, count));
    return;
  }
  const auto middle = [&](const FlatFace& f) {
    Vec3 sum;
    for (const std::uint32_t v : f.corners) sum = sum + mesh.vertices[v];
    return sum * (1.0 / static_cast<double>(f.corners.size()));
  };
  geom::Box3 box;
  for (std::size_t k = 0; k < count; ++k) box.add(middle(faces[k]));
  const Vec3 size = box.hi - box.lo;
  const Vec3 axis = size.x >= size.y && size.x >= size.z ? Vec3{1, 0, 0}
                    : size.y >= size.z                   ? Vec3{0, 1, 0}
                                                         : Vec3{0, 0, 1};
  std::vector<std::pair<double, std::size_t>> order(count);
  for (std::size_t k = 0; k < count; ++k) order[k] = {dot(middle(faces[k]), axis), k};
  std::sort(order.begin(), order.end());
  std::vector<FlatFace> sorted(count);
  for (std::size_t k = 0; k < count; ++k) sorted[k] = std::move(faces[order[k].second]);
  std::move(sorted.begin(), sorted.end(), faces);
  split(kind, mesh, faces, count / 2, pieces);
  split(kind, mesh, faces + count / 2, count - count / 2, pieces);
}

// Sets what lies beside each side; false if it is not closed and convex.
bool make_solid(Piece& p) {
  if (p.corners.size() > 2 * kMostSides) return false;
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> owner;
  const auto over_sides = [&](const auto& work) {
    for (std::size_t f = 0; f < p.faces.size(); ++f)
      for (std::uint32_t k = 0; k < p.faces[f].count; ++k) {
        const std::uint32_t first = p.faces[f].first;
        work(f, p.corners[first + k], p.corners[first + (k + 1) % p.faces[f].count]);
      }
  };
  over_sides([&](std::size_t f, std::uint32_t a, std::uint32_t b) {
    owner[{a, b}] = static_cast<int>(f);
  });
  bool closed = true;
  over_sides([&](std::size_t, std::uint32_t a, std::uint32_t b) {
    const auto over = owner.find({b, a});
    closed = closed && over != owner.end();
    p.beside.push_back(closed ? over->second : -1);
  });
  if (!closed || owner.size() != p.corners.size()) return false;
  for (const PieceFace& f : p.faces)
    for (const Vec3& v : p.points)
      if (dot(f.normal, v - p.points[p.corners[f.first]]) > kFlat) return false;
  p.kind = PieceKind::solid;
  return true;
}

// Faces that hang together by their corners, each set by itself, in order.
std::vector<std::vector<FlatFace>> bodies_of(const geom::Mesh& mesh, std::vector<FlatFace> faces) {
  std::vector<std::uint32_t> root(mesh.vertices.size());
  std::iota(root.begin(), root.end(), 0U);
  const auto find = [&](std::uint32_t v) {
    while (root[v] != v) v = root[v] = root[root[v]];
    return v;
  };
  for (const FlatFace& f : faces)
    for (const std::uint32_t v : f.corners) root[find(v)] = find(f.corners.front());
  std::map<std::uint32_t, std::size_t> place;
  std::vector<std::vector<FlatFace>> bodies;
  for (FlatFace& f : faces) {
    const auto [at, fresh] = place.try_emplace(find(f.corners.front()), bodies.size());
    if (fresh) bodies.emplace_back();
    bodies[at->second].push_back(std::move(f));
  }
  return bodies;
}

// Convex bodies as solids; the rest is returned.
std::vector<FlatFace> take_solids(const geom::Mesh& mesh, std::vector<FlatFace> faces,
                                  std::vector<Piece>& pieces) {
  std::vector<FlatFace> rest;
  for (std::vector<FlatFace>& body : bodies_of(mesh, std::move(faces))) {
    if (body.size() <= kMostSides) {
      Piece p = make_piece(PieceKind::faces, mesh, body.data(), body.size());
      if (make_solid(p)) {
        pieces.push_back(std::move(p));
        continue;
      }
    }
    std::move(body.begin(), body.end(), std::back_inserter(rest));
  }
  return rest;
}

std::vector<FlatFace> triangles_of(const Caster& c) {
  std::vector<FlatFace> faces;
  for (std::size_t k = 0; k < c.normals.size(); ++k) {
    const geom::Triangle& t = c.mesh->triangles[k];
    faces.push_back({{t[0], t[1], t[2]}, c.normals[k]});
  }
  return faces;
}

}  // namespace

Pieces pieces_of(const Caster& c) {
  Pieces out;
  const geom::Mesh& mesh = *c.mesh;
  if (c.kind == CasterKind::volume) {
    std::vector<FlatFace> faces = c.round ? std::vector<FlatFace>{} : triangles_of(c);
    split(PieceKind::leaves, mesh, faces.data(), faces.size(), out.all);
  } else {
    std::vector<char> taken(c.normals.size(), 0);
    if (!c.closed) out.all = take_curtains(mesh, c.normals, taken);
    std::vector<std::uint32_t> left;
    for (std::size_t k = 0; k < taken.size(); ++k)
      if (taken[k] == 0) left.push_back(static_cast<std::uint32_t>(k));
    std::vector<FlatFace> faces = flat_faces(mesh, c.normals, left);
    if (c.closed && c.kind == CasterKind::opaque)
      faces = take_solids(mesh, std::move(faces), out.all);
    split(PieceKind::faces, mesh, faces.data(), faces.size(), out.all);
  }
  out.near = BoxTree(boxes_of(out.all));
  return out;
}

}  // namespace hummock::shade
