// Where the animal stands to go into a house: right before each way that its body walks through.
//
// A way (engine/barrier/house_ways.h) counts that opens into the yard, is as wide and, above its
// sill and above what snow lies before it, as high as the body (the door check asks the same), and
// where that body finds room before it as deep as it is wide. A grille must pass all of it. From
// within it must be gained by a leap from the level of the room's lowest way, but for an
// animal that climbs. What stands in the house, and its plan, part it (house_insides.h). The
// careful side is that it does not go in.
#pragma once

#include <vector>

#include "engine/usable/usable_ground.h"

namespace hummock::usable {

struct DoorSpot {
  geom::Vec3 at;      // its middle, at the height of the sill
  double step = 0.0;  // m, of the sill above the ground at the wall; 0 where it climbs the wall
  int room = 0;
  int house = 0;      // of site.houses
  geom::Vec2 within;  // on plan, the middle of a body right behind it
};
struct HouseDoors {
  std::vector<int> room_of;  // by house
  int rooms = 0;
  std::vector<DoorSpot> spots;  // several a way, no farther apart than half its width
};

HouseDoors house_doors(const Model& model, const UsableGround& ground);

}  // namespace hummock::usable
