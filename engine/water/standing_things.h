// What stands on the ground and holds rain up: houses, and boxes, logs and closed meshes that are
// not of netting. Round trunks and posts, and between boulders, rain finds its way.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/model/model.h"
#include "geometry/terrain/depression_fill.h"

namespace hummock::water {

struct StandingThings {
  std::vector<geom::Crossing> walls;  // at the top of the whole thing
  std::vector<std::size_t> inside;    // nodes in one of them, on which no rain falls
};

// One wall for every edge of the triangulation that passes the face of one 2 cm above the ground:
// what leaves a gap narrower than a cell is taken as shut, and a thing lower than that lets it by.
// Doors and vents are taken as shut too: water rises higher before them so, never less.
StandingThings standing_things(const Model& model);

}  // namespace hummock::water
