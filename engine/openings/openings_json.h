// The openings as JSON (keys as DESIGN §5) and as figures for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/brief/brief.h"
#include "engine/openings/openings.h"

namespace hummock::openings {

nlohmann::json to_json(const Result& result, const Model& model);
void add_figures(const Result& result, const Model& model, Figures& figures);

}  // namespace hummock::openings
