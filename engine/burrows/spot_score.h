// One spot, measured and scored.
#pragma once

#include "engine/burrows/burrows.h"
#include "engine/model/soil_over_rock.h"
#include "engine/usable/usable_ground.h"

namespace hummock::burrows {

// What scoring wants of the site, once.
struct Siting {
  SitingWeights weights;
  double dig_depth = 1.0;    // m the soil should have
  double dig_length = 1.0;   // m the fence should be away
  double stand_slope = 1.0;  // rad
};
Siting siting_of(const Model& model);

// The value of the node nearest to p; `otherwise` outside or where there is none.
double sample(const geom::Raster& raster, Vec2 p, double otherwise);

// Everything but the reasons.
struct Yard {
  const Model& model;
  const shade::Day& day;
  const water::Result& water;
  Siting siting;
  usable::UsableGround ground;
};

// Points about `at`, at most a cell apart: where what is measured is taken.
struct Patch {
  Vec2 at;
  std::vector<Vec2> points;
  double reach = 0.0;  // m from `at`
};
// As wide as the body is long, or the burrow if that is more.
Patch mouth(const Yard& yard, Vec2 at, double diameter);
// Before a den's opening: as wide as it, a body's length deep.
Patch den_front(const Yard& yard, const Den& den);

// Everything but the reasons.
BurrowSite measure(const Yard& yard, const Patch& patch);

// A sentence for each of the five, worst news in plain words.
std::vector<std::string> reasons(const BurrowSite& spot, const Siting& siting);

}  // namespace hummock::burrows
