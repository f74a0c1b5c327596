// The maps of leap.h: the demand at each ground node, and on the faces of every part.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/leap/places/places.h"
#include "engine/leap/search/touch_leap.h"
#include "geometry/plan/grid.h"

namespace hummock::leap {

geom::Raster ground_map(const Model& model, const TouchLeap& touch, const GroundPlaces& ground);
std::map<std::string, std::vector<float>> surface_map(const Model& model, const TouchLeap& touch);

}  // namespace hummock::leap
