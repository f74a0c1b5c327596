// The nearest points of two triangle meshes.
#pragma once

#include <functional>
#include <memory>

#include "geometry/mesh/mesh.h"

namespace hummock::geom {

struct NearestPair {
  double distance = 0.0;  // m; 0 when the surfaces touch or cross
  Vec3 on_first, on_second;
};

// Exact for two triangles: the least of nine edge pairs and six corner–face pairs, or 0 when an
// edge of the one pierces the other (Ericson, Real-Time Collision Detection, 5.1.5 and 5.1.9: from
// memory).
NearestPair nearest_of_triangles(const Vec3 (&first)[3], const Vec3 (&second)[3]);

// A mesh in a tree of boxes, for many questions.
class MeshTree {
 public:
  // The data is copied. An empty mesh is allowed and is infinitely far from everything.
  explicit MeshTree(const Mesh& mesh);
  ~MeshTree();
  MeshTree(MeshTree&&) noexcept;
  MeshTree& operator=(MeshTree&&) noexcept;
  MeshTree(const MeshTree&) = delete;
  MeshTree& operator=(const MeshTree&) = delete;

  const Box3& box() const;
  bool empty() const;

  // The nearest pair closer than `within`; a distance of `within` when there is none. Surfaces
  // only: a mesh wholly inside another is at the distance of their surfaces. Exact up to rounding;
  // n·log n in practice for meshes that are near in few places.
  friend NearestPair nearest(const MeshTree& first, const MeshTree& second, double within);
  friend double distance_to(const MeshTree& tree, Vec3 p, double within);
  friend void near_triangles(const MeshTree& first, const MeshTree& second, double within,
                             const std::function<bool(const Vec3 (&)[3], const Vec3 (&)[3])>& look);

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

NearestPair nearest(const MeshTree& first, const MeshTree& second, double within);

// How far p is from the surface, m; `within` when it is no nearer than that.
double distance_to(const MeshTree& tree, Vec3 p, double within);

// Every pair of triangles whose boxes are nearer than `within`, and maybe more, until `look` says
// false. In an order that depends on the two meshes alone.
void near_triangles(const MeshTree& first, const MeshTree& second, double within,
                    const std::function<bool(const Vec3 (&)[3], const Vec3 (&)[3])>& look);

}  // namespace hummock::geom
