// What the fence, the roof and the ground are of, as figures whose value is words.
//
// Fence: the sheet of every section that has an edge, with its bands, cap and overhang, as drawn;
// gates, drains and what a house's wall closes are not looked at. Roof: its kind, and "open" where
// there is none, or where a corner of the yard or the middle of an edge of it is not under the
// roof's own outline. A convex outline that holds all corners holds the yard; whether another does
// is not worked out, and the row is then not checked. Soil: the file's word; one that is not given
// has no value.
#pragma once

#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/model/model.h"

namespace hummock::quantities {

// quantities.fence_kinds, roof_kinds, soil.
void add_kinds(const Model& model, Figures& figures);
// What these are, with the words each may have.
FigureRows kind_rows();

}  // namespace hummock::quantities
