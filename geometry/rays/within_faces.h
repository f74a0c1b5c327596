// Is a point within closed meshes of a scene?
#pragma once

#include "geometry/rays/ray_scene.h"

namespace hummock::geom {

// Of those whose faces `counts(hit)`: straight up more are left than entered, however they stand in
// each other. Faces look outwards; a point on one may be told either way.
template <class Counts>
bool within_faces(const RayScene& scene, Vec3 p, const Counts& counts) {
  constexpr double kFarUp = 1e4;  // m; numeric, above any scene
  int more_out = 0;
  for (const Hit& hit : scene.all_hits({p, {0.0, 0.0, 1.0}, 0.0, kFarUp}))
    if (counts(hit)) more_out += hit.normal.z > 0.0 ? 1 : -1;
  return more_out > 0;
}

}  // namespace hummock::geom
