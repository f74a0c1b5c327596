// At what height an animal leaves over an edge of the barrier, or that the edge is closed: the
// clear height above it (places.h, Exits).
#pragma once

#include <optional>

#include "engine/leap/places/places.h"

namespace hummock::leap {

class EdgeClearance {
 public:
  // Keeps a reference to the model.
  EdgeClearance(const Model& model, double least_opening)
      : model_(model), opening_(std::max(least_opening, 2.0 * kLift)) {}

  // Over the edge point p, asked just beside it where the animal comes up; nothing where the edge
  // is closed. That is the edge itself where the clear height above is at least the opening. The
  // ray starts a little below, so that a roof flush with the edge is met. A closed thing on the
  // edge or flush with it, however high, or less than the opening above it, raises it to that
  // thing's top; a sheet closes it.
  std::optional<double> way_over(Vec3 p, Vec3 beside) const;

  // Does the first thing met from the sky, a roof, lie on the edge or close it to less than the
  // opening?
  bool roofed_over(Vec3 p, Vec3 beside) const;

 private:
  // How many solids the ray starts inside of: it leaves that many more than it enters.
  int solids_round_start(const std::vector<geom::Hit>& hits) const;
  bool solid(const geom::Hit& hit) const;

  const Model& model_;
  double opening_;  // m
};

}  // namespace hummock::leap
