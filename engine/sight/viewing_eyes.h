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
  double off = 0.0;          // m, of the eyes from the boundary's line
  double up = 0.0;           // m, of the eyes from the ground
  int gaps = 1;              // between its eyes, at least one
};
// The drawn viewing places in the site's order, then the edges of sections with guest_view.
std::vector<Viewpoint> viewpoints(const Model& model, const Land& land, double eye_spacing);

// Eyes midway between those that stand once their gaps have been halved `halvings` times.
std::vector<Vec3> eyes_between(const Land& land, const Viewpoint& view, int halvings);
// How far apart those stand that are midway between, m.
double gap_after(const Viewpoint& view, int halvings);

// Does the line from the eye to the target pass the window's sill? Beside the window there is none,
// and what stands there decides.
bool through(const Window& window, const geom::Heightfield& ground, Vec3 eye, Vec3 target);

// Share of the boundary's length with a viewing place or a section for guests.
double guest_share(const Model& model);

}  // namespace hummock::sight
