// Shade's figures for the JSON of `check` and `shade`, and for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// date, day ("rises and sets" …), sunrise, transit, sunset, day_length_h, times[], hours_each[],
// shaded_share[], shaded_m2_per_animal[], hottest_shade_m2_per_animal, hottest_at,
// sun_hours{min,mean,max}, sunniest{at,hours}, coolest{at,hours}, irradiation_kwh_m2{mean,open},
// sky_view_mean, objects[]{name,at,sun_hours}, hills_from[] ("place.horizon", "ground.raster"),
// and the times as ISO 8601 with offset: times_iso[], sunrise_iso, transit_iso, sunset_iso,
// hottest_at_iso, hot_hours{by_the_sun,clock,from_iso,to_iso}.
nlohmann::json to_json(const Day& day, const Model& model);
// year, sun_hours{min,mean,max}, month_sun_hours_mean[12] (a day), error_bound_share.
nlohmann::json to_json(const Year& year, const Model& model);

// shade.hottest_shade_m2_per_animal, shade.sun_hours_min|mean|max, shade.irradiation_kwh_m2,
// shade.sky_view_mean, shade.shaded_share_least.
void add_figures(const Day& day, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();
// What in it a reviewer should look at: that nothing tells of hills.
void add_findings(const Day& day, const Model& model, FindingList& list);

// The coolest place.
std::optional<LookAt> look_at(const Day& result, const Model& model);

}  // namespace hummock::shade
