// Where burrows, dens and sunning rocks go: every spot scored, the best n with reasons.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/shade/shade.h"
#include "engine/water/water.h"

namespace hummock::burrows {

struct Spot {
  Vec2 at;
  double score = 0;              // 0..1
  double shade_11_15 = 0;        // share
  std::optional<double> soil_m;  // depth to rock; nothing = unlimited
  double slope_deg = 0, ponding_m = 0, fence_m = 0;
  std::vector<std::string> reasons;
};
struct DrawnRow {
  std::string name;
  std::string kind;  // burrow | den | sunning rock
  Vec2 at;
  Spot as_spot;
  double sun_hours = 0;
  std::string words;  // "the sunning rock has 6.1 h of sun, the sunniest spot has 9.3 h at (…)"
};
struct Result {
  std::vector<Spot> best;
  std::vector<DrawnRow> drawn;
  geom::Raster score;
};
Result analyse(const Model& model, const shade::Day& day, const water::Result& water);

}  // namespace hummock::burrows
