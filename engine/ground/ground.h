// The ground of a site: survey, earth forms, dug basins, allowances.
//
// Order. 1. The survey (a level plane, a raster, or scattered points) is brought onto the grid:
// `surveyed`. 2. The site's earth forms are applied in the order they are written. 3. A basin is
// dug for each [[water]] that gives a depth. The result is what the fence and the furniture are
// built on. 4. Snow and scour (`lay_allowances`) change the ground afterwards: the fence stays
// where it was built.
//
// The grid. Nodes at multiples of `cell` from the south-west corner of the outline's box widened by
// `margin` on every side (by one cell if the margin is smaller).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/ground/survey_record.h"
#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

struct Built {
  geom::Heightfield surveyed;
  geom::Heightfield shaped;           // with forms and basins
  std::vector<double> water_levels;   // m, one for each [[water]]: given, or the dug basin's rim
  std::vector<std::string> notes;     // what the reader of a report should know
  std::vector<std::uint8_t> guessed;  // nodes of it the survey has no height for; empty = none
  std::vector<Unseen> unseen;         // what of the files the ground lacks
  std::vector<InputFile> read;        // the survey's files, as they were read
};

// `site` is in local coordinates; `origin` added to them gives the file's. Throws InputError (see
// raster_survey.h, point_survey.h), and when the grid would have more than 64 million nodes.
Built build(const Site& site, Vec2 origin, const Progress& progress = {});

// The area modelled.
geom::Box2 modelled_area(const Polygon& outline, double cell, double margin);

// Nodes of the ground this site will have, about.
double nodes_of(const Site& site);

// The ground under what stands beyond the modelled area: the same survey and forms (but smoothing)
// on a grid of at most 400 cells across, for what stands there only.
struct FarGround {
  geom::Heightfield ground;
  std::vector<std::string> notes;     // that the survey does not cover all of it
  std::vector<std::uint8_t> guessed;  // nodes without a height of their own; empty = none
};
// Under surroundings. Nothing when all of them stand on modelled ground.
std::optional<FarGround> far_ground(const Site& site, Vec2 origin);
// The same over `area` and the modelled one.
FarGround ground_over(const Site& site, Vec2 origin, geom::Box2 area);

// Snow, or drifted sand, raises every node by `snow` metres; scour lowers those within 1 m of the
// outline by `scour` metres. Both >= 0.
void lay_allowances(geom::Heightfield& ground, const Polygon& outline, double snow, double scour);

}  // namespace hummock::ground
