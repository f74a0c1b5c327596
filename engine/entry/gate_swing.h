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

// Of the gate's own leaf, about its post at a or b.
Swing swing_about(const Gateway& g, const Gate& gate, bool about_a);

// What stops the leaf of the vestibule's second gate, about either of its posts: outwards, and
// inwards too where the vestibule has so much depth to `spare` (m). Empty: nothing, or no such
// leaf.
std::string in_the_second_swing(const Model& model, const Gateway& g, const Gate& gate,
                                double spare);

}  // namespace hummock::entry
