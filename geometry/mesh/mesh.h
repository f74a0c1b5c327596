// Triangle meshes as plain index arrays, and the sums one asks of them.
//
// Winding: counter-clockwise seen from outside (normal by the right-hand rule).
// A mesh may be open (a sheet); `is_closed` tells. Nothing here repairs a mesh.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "geometry/vec.h"

namespace hummock::geom {

using Triangle = std::array<std::uint32_t, 3>;

struct Mesh {
  std::vector<Vec3> vertices;       // m
  std::vector<Triangle> triangles;  // indices into vertices
  bool empty() const { return triangles.empty(); }
};

Box3 bounds(const Mesh& mesh);

// Sum of triangle areas, m².
double surface_area(const Mesh& mesh);

// Signed volume by the divergence theorem, m³; positive when normals point outwards.
// Meaningful only for a closed mesh (check `open_edges(mesh) == 0` first).
double signed_volume(const Mesh& mesh);

// Directed edges (a→b) that lack their mate (b→a): 0 for a closed, consistently wound mesh.
// Vertices are matched by index; call `weld` first for a triangle soup.
std::size_t open_edges(const Mesh& mesh);
inline bool is_closed(const Mesh& mesh) {
  return !mesh.empty() && open_edges(mesh) == 0;
}

// Joins vertices closer than `tolerance` (m, >= 0; 0 = bitwise equal) and drops triangles that
// lose a corner. The result does not depend on the order of the input's duplicates.
Mesh weld(const Mesh& mesh, double tolerance);

// Appends `other` to `mesh`, keeping both windings.
void append(Mesh& mesh, const Mesh& other);

// Appends a flat quad a,b,c,d (counter-clockwise seen from outside) as two triangles a,b,c and
// a,c,d.
void append_quad(Mesh& mesh, Vec3 a, Vec3 b, Vec3 c, Vec3 d);

// Reverses every triangle.
void flip(Mesh& mesh);

// Rotation about z by `turn` radians counter-clockwise seen from above, then shift.
void place(Mesh& mesh, double turn, Vec3 shift);

// Area-weighted unit normal at each vertex; a vertex with no area gets +z.
std::vector<Vec3> vertex_normals(const Mesh& mesh);

}  // namespace hummock::geom
