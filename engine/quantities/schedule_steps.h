// The schedule's chapters, each adding its rows.
#pragma once

#include <vector>

#include "engine/quantities/quantities.h"

namespace hummock::quantities {

void add_fence(const Model& model, std::vector<Row>& rows);      // by section, gates, roof
void add_ground(const Model& model, std::vector<Row>& rows);     // earth, water, planting
void add_furniture(const Model& model, std::vector<Row>& rows);  // objects, dens, burrows, houses

}  // namespace hummock::quantities
