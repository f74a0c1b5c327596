// The land outside as guests stand on it, and as it hides what they see.
#pragma once

#include <memory>
#include <optional>

#include "engine/model/model.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::sight {

class Land {
 public:
  // The model must outlive it.
  explicit Land(const Model& model);

  // Of the ground under a guest: the modelled one, or beyond it the land that is known
  // (engine/ground/guests.h), else its nearest height.
  double height_under(Vec2 p) const;
  // Before `hides` is asked of it.
  void look_from(Vec3 eye);
  // Does the ground stand between an eye off the modelled ground and a place on it? Up to its edge
  // the land beyond does, within it the modelled ground.
  bool hides(Vec3 eye, Vec3 target) const;

 private:
  const geom::Heightfield& modelled_;
  std::shared_ptr<const geom::Heightfield> beyond_;  // may be nothing
  std::optional<geom::RayScene> near_, far_;         // where some eye needs them
};

}  // namespace hummock::sight
