// Sun on the tops of objects and dens.
#pragma once

#include <vector>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/day/day_steps.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// By area: about 200 pieces of like size over what of a top looks up, each asked at its middle, so
// a shadow's edge is placed to a piece. Objects but trees and posts, in the site's order, then
// dens. Rays of step k are suns[k].
std::vector<ObjectRow> object_tops(const Model& model, const FastBeam& fast,
                                   const std::vector<Step>& steps,
                                   const std::vector<std::vector<SunRay>>& suns,
                                   const sun::Date& date);

}  // namespace hummock::shade
