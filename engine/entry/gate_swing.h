// The quarter disc a gate's leaf sweeps, and what stands in it.
#pragma once

#include <optional>
#include <string>

#include "engine/model/model.h"

namespace hummock::entry {

struct Swing {
  Vec2 hinge;
  Vec2 along;                // unit, from the hinge to the other post
  Vec2 towards;              // unit, square to it: the way it opens
  double radius = 0;         // m, the leaf's width
  double foot = 0, top = 0;  // m above datum
  int own_leaf = -1;         // part
};

// Does the triangle reach into the swept space?
bool reaches_into(const Swing& swing, const Vec3 (&corner)[3]);

// Highest point of the ground under the swept quarter disc, m.
double highest_ground(const geom::Heightfield& ground, const Swing& swing);

// The first thing in the way: a part's name, or "the ground"; nothing when it is free.
std::optional<std::string> obstacle_in(const Model& model, const Swing& swing);

}  // namespace hummock::entry
