// What the model's ground lacks of its files (engine/site/unseen.h), as ifs of the requirements it
// concerns.
//
// It concerns every analysis that reads the ground; a form cut by the margin those that look beyond
// the boundary, so not room and relief, which are of the inside alone; the ground under guests what
// they see. That it bears the verdict is assumed: what is not modelled cannot be tried. A
// requirement that is met then stands as `met_if` until a keeper confirms the key, in the species
// file or the site file.
//
// Where a row would have more than kMostIfs lines, the last is of several together, and counts as
// confirmed only when each of them is.
#pragma once

#include "engine/brief/brief.h"
#include "engine/model/model.h"

namespace hummock {

void rest_on_unseen_ground(const Model& model, std::vector<BriefRow>& rows);

}  // namespace hummock
