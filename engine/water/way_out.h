// Whether an animal in the water comes ashore at a place.
//
// The way: straight out, as wide as the body, from where the water is `reach` deep (or 3 m in) to
// `beyond` past the shore. It is open when all of it lies inside the boundary (a shore behind the
// fence is none), no closed part stands on it, nothing that stops a body crosses it at half the
// animal's crouch or near its full height, and it can live where it ends
// (engine/usable/usable_ground.h). Sampled every half cell along and every cell across.
// Limits: only straight ways; what stands farther out in deep water is not seen, so a ring of
// blocks round the middle of a basin is not told; the slope is asked elsewhere (basins.cpp).
#pragma once

#include "engine/model/model.h"
#include "engine/usable/usable_ground.h"

namespace hummock::water {

struct Shore {
  Vec2 at;
  Vec2 out;  // unit, out of the water
};

class WayOut {
 public:
  explicit WayOut(const Model& model);
  bool open(const Shore& shore, double level, double reach, double beyond) const;

 private:
  double way_in(const Shore& shore, double level, double reach) const;
  bool line_open(Vec2 from, Vec2 to) const;
  bool step_free(Vec2 from, Vec2 to) const;

  const Model& model_;
  usable::UsableGround usable_;
  double step_ = 0.0;  // m
};

}  // namespace hummock::water
