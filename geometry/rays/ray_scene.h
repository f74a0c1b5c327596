// Rays against the ground and meshes: a thin face over Embree 3.
//
// Float32 inside: keep coordinates within a few kilometres of the origin (at 4 km the step is
// 0.25–0.5 mm). Scenes are built with the robust flag: without it rays in the plane of mesh edges
// leak. The ground is a grid geometry, split as geometry/terrain/heightfield.h says. All queries
// are const and may run from any number of threads.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/terrain/heightfield.h"
#include "geometry/vec.h"

namespace hummock::geom {

struct Ray {
  Vec3 origin;
  Vec3 direction;     // need not be unit; distances are in its length
  double near = 0.0;  // start, in units of direction
  double far = 1e30;  // end
};

inline constexpr std::int32_t kNoHit = -1;

struct Hit {
  std::int32_t id = kNoHit;    // the id given when the thing was added; kNoHit = nothing
  std::uint32_t triangle = 0;  // of the mesh; for the ground 0
  double t = 0.0;              // along the ray
  Vec3 normal;                 // of the triangle, not unit
  explicit operator bool() const { return id != kNoHit; }
};

// Sixteen rays with one far end each, for coherent batches; `valid` bit k enables ray k.
struct RayPacket16 {
  alignas(64) float ox[16], oy[16], oz[16], dx[16], dy[16], dz[16], near[16], far[16];
  std::uint32_t valid = 0xFFFF;
};

class RayScene {
 public:
  RayScene();
  ~RayScene();
  RayScene(RayScene&&) noexcept;
  RayScene& operator=(RayScene&&) noexcept;
  RayScene(const RayScene&) = delete;
  RayScene& operator=(const RayScene&) = delete;

  // Add things, then `commit` once, then ask. The data is copied. `id` must be >= 0; several things
  // may share one. An empty mesh is skipped.
  void add_ground(const Heightfield& ground, std::int32_t id);
  void add_mesh(const Mesh& mesh, std::int32_t id);
  void commit();

  Hit first_hit(const Ray& ray) const;
  bool occluded(const Ray& ray) const;
  // Bit k set = ray k meets something.
  std::uint32_t occluded(const RayPacket16& rays) const;
  // Every hit between near and far, in order of t; a triangle is reported once.
  std::vector<Hit> all_hits(const Ray& ray) const;
  // Is the straight segment free? The ends are pulled in by `clear` metres.
  bool segment_free(Vec3 a, Vec3 b, double clear = 1e-4) const;
  // The underlying RTCScene (as void*), for callers that need packets or filters of their own.
  void* native() const;

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace hummock::geom
