// What the roof leaves free beside it: slots too narrow to leave by, and a roof that is only a
// shelter.
//
// A slot between the roof's rim and what stands across it (fence, house, a closed thing) is no way
// out where no ball of the least opening passes. Its width at a point is the distance across it:
// from the rim along a fan of rays outwards and down, from the fence's top to the nearest rim
// before it. Between two straight edges no ball is wider; beside a corner, where both turn by the
// same angle, the ball in it is wider by at most 2 / (1 + sin(φ/2)), φ the smaller of the corner's
// two angles (elementary: the circle that touches both sides and the rim's corner), which is asked
// for within kNearCorner openings of any corner. What the fan misses is open. Overhangs' tips are
// not asked.
//
// A roof that lies wholly in the yard, nowhere near the barrier's line, closes nothing of it: an
// animal on top still stands inside. It is then a thing like others, stood on; only where it can be
// stood on everywhere, else its edges stay ways out. Nearer than kShelterAway to the line it is
// part of the barrier.
#pragma once

#include <vector>

#include "engine/barrier/wall_slits.h"
#include "engine/leap/places/places.h"

namespace hummock::leap {

inline constexpr double kNearCorner = 2.0;  // openings; common practice, no source
using barrier::kShelterAway;
bool is_shelter(const Model& model, const PlaceRules& rules, const Part& roof);

// What passes a slot is asked at the careful end, where the species file gives one, m.
double slot_opening(const Model& model, const PlaceRules& rules);

class RoofSlots {
 public:
  // Keeps a reference to the model. Without a roof no slot is narrow.
  RoofSlots(const Model& model, double least_opening);

  // At a point of the rim, `out` across it in plan, unit: is what is free there too narrow?
  bool narrow_at_rim(geom::Vec3 p, geom::Vec2 out) const;
  // At a point of the fence's top, `in` towards the yard in plan, unit.
  bool narrow_at_top(geom::Vec3 p, geom::Vec2 in) const;

 private:
  struct Side {
    geom::Vec3 a, b;  // the roof on its left
  };
  struct Corner {
    geom::Vec2 at;
    double wider = 1.0;
  };
  void take_corners(const geom::Polygon& line);
  double wider_near(geom::Vec2 p) const;

  const Model& model_;
  double opening_;  // m
  int roof_ = -1;   // its part
  std::vector<Side> rim_;
  std::vector<Corner> corners_;
};

}  // namespace hummock::leap
