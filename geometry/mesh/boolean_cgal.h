// Union, difference and common part of closed meshes, by CGAL's corefinement.
//
// Method: CGAL Polygon Mesh Processing 5.5, corefine_and_compute_* (CGAL manual, "Corefinement and
// Boolean Operations"), on exact constructions: a leg that ends in a deck's underside, a box that
// stands on a level ground, walls that share a plane are all decided exactly, and several steps in
// a row cannot spoil one another by rounding. New points are rounded to double once, at the end:
// the volume agrees with exact arithmetic to about 1e-12 relative, and the mesh is closed, but
// faces may then touch by the last bit (1e-16 m at 1 m), so a result is not promised to pass as an
// operand again; hand all operands to one call instead. (Inexact constructions were tried: 10 %
// faster on a large ground, and they failed on the deck with its legs.)
//
// Operands must be closed, free of self-intersections and turned outwards; each is checked and a
// bad one is named in the answer: nothing is repaired and nothing guessed, except that a mesh
// turned inside out as a whole is turned back. A result that would touch itself along an edge or in
// a point only (two boxes edge to edge) is refused as "not a solid".
//
// Cost: each operation copies and re-indexes both operands, so unite the small things first and
// take them off the large one once (12 times faster for 20 boulders in 360 000 faces).
#pragma once

#include <string>
#include <vector>

#include "geometry/mesh/mesh.h"

namespace hummock::geom {

struct Solid {
  bool ok = false;
  Mesh mesh;            // closed, outward; may be empty when ok (nothing left)
  double volume = 0.0;  // m³
  std::string reason;   // when not ok: what is wrong, short, no full stop
};

// How operands are looked at. `unknown`: faces that cross are sought (about 2 s for 400 000) unless
// the mesh is a solid at sight (star_solid.h). `searched`: sought even then, for tests. `checked`:
// `unfit_as_solid` has passed them, or they are solids by the way they were made; the search is
// half the time of uniting a ground with what stands on it.
enum class Operands { unknown, searched, checked };

// Is the mesh usable as an operand? The reason, or empty.
std::string unfit_as_solid(const Mesh& mesh, Operands operands = Operands::unknown);

// All of them together, the two smallest first again and again. No meshes: an empty solid, ok. Ones
// that do not meet are kept side by side. The reason names the first bad operand by its place in
// the list.
Solid unite(const std::vector<Mesh>& meshes, Operands operands = Operands::unknown);

// What of `a` is not in `b`. An empty `b` gives `a`.
Solid subtract(const Mesh& a, const Mesh& b);

// What of `a` is in none of the others: they are united first, then taken off once.
Solid subtract(const Mesh& a, const std::vector<Mesh>& meshes);

// What is in both.
Solid common_part(const Mesh& a, const Mesh& b);

}  // namespace hummock::geom
