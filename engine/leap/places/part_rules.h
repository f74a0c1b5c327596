// Which of the rules the places of one part hang on, so that places are laid again only where they
// come out otherwise: a fence that is climbed may have millions of pieces.
#pragma once

#include <vector>

#include "engine/leap/places/places.h"

namespace hummock::leap {

struct PartShape;  // part_faces.h
using PartShapePtr = std::shared_ptr<const PartShape>;

// What part_places reads of the rules for one part of a model; what it does not read stays at 0.
struct PartRules {
  bool laid = false;           // its faces are places, or may be
  bool top = false;            // a shelter: its top is, besides
  double resolution = 0.0;     // m
  bool climbed = false;        // its surface is
  double steepest = 0.0;       // least upward part of a face's normal that is climbed
  double squeeze = 0.0;        // m, room before a face that is climbed
  double stand_slope = 0.0;    // rad; here and below: of what bears weight
  double crouch = 0.0;         // m
  double perch = 0.0;          // m
  double slot_opening = 0.0;   // m, beside a roof
  bool shelter_about = false;  // beside a roof: one of the roofs is a shelter
  double limb = 0.0;           // m; here and below: of what falls apart (holds/hang_together.h)
  double leap = 0.0;           // m
  friend bool operator==(const PartRules&, const PartRules&) = default;
};

// Of every part.
std::vector<PartRules> part_rules(const Model& model, const PlaceRules& rules);

// The places of a part, and what they were told by: where nothing of it hangs on limb and leap
// these stay at 0.
struct PartPlaces {
  std::vector<PatchPtr> patches;
  PartRules told_by;
};
// `shape`: of the part, kept from before, or nothing; it is made where it is asked for.
PartPlaces part_places_by(const Model& model, int part, const PlaceRules& rules,
                          const PartRules& own, PartShapePtr& shape);

// Would these rules tell the same places as those they were told by?
bool tells_the_same(const PartRules& told_by, PartRules now);

}  // namespace hummock::leap
