// The schedule for the JSON of `check` and its sums for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/quantities/quantities.h"

namespace hummock::quantities {

// An array of {item, where, amount, unit, note}.
nlohmann::json to_json(const std::vector<Row>& rows, const Model& model);
// "quantities.KEY": the sum of the rows with that key; and of what kinds fence and roof are and
// what soil there is, as words (kinds.h).
void add_figures(const std::vector<Row>& rows, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();

}  // namespace hummock::quantities
