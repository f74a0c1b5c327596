// Where burrows, dens and sunning rocks go: every spot scored, the best n with reasons.
//
// A spot is a node of the day's layers inside the outline that the animal can live on ("can live",
// engine/usable/usable_ground.h) and that lies in no drawn water. What is measured there is taken
// over a mouth and a body's length about it, not at the point: the mean of the shade, the least
// soil, the slope across it, the deepest pond. Its score is the mean of five scores, each 0..1, by
// the weights of the site's [siting] table (defaults without one):
//   shade     share of the hot hours, 11–15 h by the sun, in shade
//   soil      depth to rock against what the animal digs (dig_depth; 1 m if that is 0)
//   slope     1 from 5° to 25°: water runs off and the roof stands; 0.5 on the level; falling to 0
//             at the steepest the animal stands on (common practice, no source)
//   ponding   1 when dry, 0 from kWetDepth of standing rain on (common practice, no source)
//   fence     distance to the fence against the tunnel the animal can dig (dig_length, at least
//             1 m): beyond its reach 1, at the fence 0. Where it truly comes out under the fence is
//             the dig analysis's to say; this keeps the mouth away from it
// The best are taken in order of score, each at least `spacing` from those taken; equal scores
// go to the spot farther from the fence.
//
// Soil depth is from the ground as built to rock, which lies the depth of soil under the lower of
// the surveyed and the built ground: a mound is deeper, a cutting is not.
//
// A veto sets the score to 0 whatever the rest, with the reason: drawn water over the mouth, rain
// standing kWetDepth deep or more, something solid or a house on it. No weight undoes it.
//
// Drawn things. Burrows are judged about their mouth (at least their own diameter wide), dens over
// the ground before their opening, a body's length deep (their middle lies inside the den itself),
// sunning rocks (objects with "sunning" or "basking" in their name) by the sun on their top, if it
// is gained (drawn_faults.h, which holds what else makes a drawn one none).
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/shade/shade.h"
#include "engine/water/water.h"

namespace hummock::burrows {

inline constexpr double kWetDepth = 0.05;  // m; common practice, no source

struct BurrowSite {
  Vec2 at;
  double score = 0;              // 0..1
  double shade_11_15 = 0;        // share
  std::optional<double> soil_m;  // depth to rock; nothing = unlimited
  double slope_deg = 0, ponding_m = 0, fence_m = 0;
  double water_m = 0;  // drawn water over it
  std::string veto;    // why it is no place for a burrow whatever the scores; then score = 0
  std::vector<std::string> reasons;
  // The five scores, in the order above.
  double shade_score = 0, soil_score = 0, slope_score = 0, ponding_score = 0, fence_score = 0;
};
struct DrawnRow {
  std::string name;
  std::string kind;  // burrow | den | sunning rock
  Vec2 at;
  BurrowSite as_spot;
  double sun_hours = 0;
  std::string words;  // "the sunning rock has 6.1 h of sun, the sunniest spot has 9.3 h at (…)"
};
struct Result {
  std::vector<BurrowSite> best;
  std::vector<DrawnRow> drawn;
  geom::Raster score;  // NaN where no burrow can be
};
Result analyse(const Model& model, const shade::Day& day, const water::Result& water);

}  // namespace hummock::burrows
