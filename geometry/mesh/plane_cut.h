// Meshes and ground cut by an upright plane: the lines one sees in a section.
#pragma once

#include <utility>
#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// The upright plane through a and b (distinct in plan), with s = metres from a towards b.
struct UprightPlane {
  Vec2 a;
  Vec2 b;
  Vec2 along() const { return unit(b - a); }
  double length() const { return distance(a, b); }
  Vec2 at(double s) const { return a + along() * s; }
};

struct CutLine {
  Vec2 from;  // (s, z)
  Vec2 to;
};

// Where the mesh's triangles meet the plane, clipped to s_from..s_to. A triangle lying in the plane
// gives its outline.
std::vector<CutLine> cut(const Mesh& mesh, const UprightPlane& plane, double s_from, double s_to);

// The ground's profile from s_from to s_to, exact (a point at every break of the triangulation).
std::vector<Vec2> profile(const Heightfield& ground, const UprightPlane& plane, double s_from,
                          double s_to);

}  // namespace hummock::geom
