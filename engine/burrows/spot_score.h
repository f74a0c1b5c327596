// One spot, measured and scored.
#pragma once

#include "engine/burrows/burrows.h"

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
BurrowSite measure(const Model& model, const shade::Day& day, const water::Result& water,
                   const Siting& siting, Vec2 p);

// A sentence for each of the five, worst news in plain words.
std::vector<std::string> reasons(const BurrowSite& spot, const Siting& siting);

}  // namespace hummock::burrows
