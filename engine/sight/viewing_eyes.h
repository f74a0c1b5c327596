// Where guests' eyes are, and the window each viewing place looks through.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/sight/land.h"

namespace hummock::sight {

// The upright opening of a viewing place in the boundary's line: from `a` to `b` (the boundary on
// the left is inside), no lower than `sill` above the ground.
struct Window {
  Vec2 a, b;
  Vec2 inwards;  // unit
  double sill = 0.0;
};
struct Viewpoint {
  std::string name;  // of the viewing place, or of the section guests stand along
  Window window;
  std::vector<Vec3> eyes;    // the middle one first, then outwards
  bool sees_through = true;  // some fence over its width passes sight
};
// The drawn viewing places in the site's order, then the edges of sections with guest_view.
std::vector<Viewpoint> viewpoints(const Model& model, const Land& land, double eye_spacing);

// Does the line from the eye to the target pass through the window?
bool through(const Window& window, const geom::Heightfield& ground, Vec3 eye, Vec3 target);

// Share of the boundary's length with a viewing place or a section for guests.
double guest_share(const Model& model);

}  // namespace hummock::sight
