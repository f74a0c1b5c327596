// What lies under the pointer: rays against the model as built.
//
// Wire mesh, glass and leaves are looked through when asked, so that one can take hold of the
// boulder behind the fence.
#pragma once

#include <memory>
#include <optional>

#include "engine/model/model.h"
#include "geometry/rays/ray_scene.h"
#include "viewer/draw/renderer.h"
#include "viewer/scene/camera.h"
#include "viewer/scene/visibility.h"

namespace hummock::viewer {

struct Picked {
  std::int32_t part = -1;  // index into Model::parts; -1 = the ground
  Vec3 at;
  double distance = 0.0;  // m from the eye
};

class Picker {
 public:
  explicit Picker(std::shared_ptr<const Model> model);

  // The first thing along the sight that is shown and not cut away. `solid_only` looks through
  // sheets one sees through.
  std::optional<Picked> pick(const Sightline& sight, const DrawSettings& settings,
                             bool solid_only) const;
  // Where the sight meets the ground; beyond the modelled ground, the level of its nearest edge.
  std::optional<Vec3> ground(const Sightline& sight) const;

 private:
  std::shared_ptr<const Model> model_;
  geom::RayScene rays_;
};

// Where the sight meets the level plane z, ahead of the eye.
std::optional<Vec3> on_level(const Sightline& sight, double z);

}  // namespace hummock::viewer
