// Shade as tables for a spreadsheet. Comma, point, one header line, coordinates of the site.
#pragma once

#include <string>

#include "engine/shade/shade.h"

namespace hummock::shade {

// time, azimuth_deg, elevation_deg, hours, shaded_share, shaded_m2_per_animal: a row a step.
std::string times_csv(const Day& day, const Model& model);
// x_m, y_m, sun_hours, longest_shade_h, hot_shade_share, irradiation_kwh_m2, direct_kwh_m2,
// sky_view, then a column for each clock hour if the day kept its bands: a row a cell inside.
std::string cells_csv(const Day& day, const Model& model);
// name, x_m, y_m, z_m, sun_hours: a row a top.
std::string objects_csv(const Day& day, const Model& model);
// x_m, y_m, sun_hours_year, then hours a day for each month.
std::string year_csv(const Year& year, const Model& model);

}  // namespace hummock::shade
