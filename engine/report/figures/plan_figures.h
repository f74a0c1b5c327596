// Plans for the report: each a map layer on the site, with a caption that says model, unit and
// settings. The model must outlive the figures.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/check/check.h"
#include "engine/draw/canvas.h"
#include "engine/model/model.h"

namespace hummock::report {

draw::Figure slope_plan(const Model& model);
draw::Figure cap_plan(const Model& model, const leap::Settings& settings);
draw::Figure required_leap_plan(const Model& model, const leap::Settings& settings,
                                const Progress& progress);
draw::Figure sun_hours_plan(const Model& model, const shade::Day& day,
                            const shade::Settings& settings);
// The design day at six hours of the clock, spread between sunrise and sunset. Nothing without sun.
std::optional<draw::Figure> six_hours_plan(const Model& model, const shade::Day& day);
draw::Figure seasons_plan(const Model& model, const std::vector<shade::Day>& days,
                          const shade::Settings& settings);
draw::Figure sight_plan(const Model& model, const sight::Result& sight);
draw::Figure ponding_plan(const Model& model, const water::Result& water);
draw::Figure earthworks_plan(const Model& model, const earthworks::Result& earthworks);
draw::Figure burrow_plan(const Model& model, const burrows::Result& burrows);

}  // namespace hummock::report
