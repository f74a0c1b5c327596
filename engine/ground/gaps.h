// Places where a survey has no height.
#pragma once

#include <string>
#include <vector>

#include "engine/ground/survey_record.h"
#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

// A survey coarser than this many cells is doubtful (engine/site/doubtful.h).
inline constexpr double kMostCoarse = 20.0;  // common practice, no source

// Throws InputError when a node of `ground` inside the outline, or within one and a half cells of
// it, is NaN: `found` names what is missing and the place (site coordinates). `where` is the key of
// the survey's file.
void refuse_gaps(const geom::Heightfield& ground, const Polygon& outline, Vec2 origin,
                 const Where& where, const std::string& what, const std::string& allowed);

// Gives every NaN node the height of the nearest node that has one, counted in steps to the eight
// neighbours; how many there were. At least one node must have a height.
std::size_t fill_gaps(geom::Heightfield& ground);

// Fills, and tells which nodes, with a note that says how much of the margin was filled.
void fill_margin(geom::Heightfield& ground, SurveyRecord& record);

// "(12.50, 3.00)" in site coordinates.
std::string place_words(Vec2 site_point);

}  // namespace hummock::ground
