// The surveyed ground from a raster file (which: raster_file.h), band 1.
//
// Which rasters. Coordinates must be the site's own, in metres: no coordinate system at all, or a
// projected one in metres. Degrees, or feet, on the ground are refused with the command that
// converts. Heights in feet (the band's unit) are turned into metres and noted; scale and offset of
// the band are applied.
//
// Resampling is bilinear between pixel centres; in the outer half pixel the edge pixel's value is
// used. A sample that leans on a no-data pixel has no height. On a raster that is bilinear or
// planar between its pixels this is exact; otherwise it errs by at most h²/8 (|z_xx| + |z_yy|) for
// pixels of size h, and it does not average a raster that is finer than the site's cell: noted, and
// unseen (engine/site/unseen.h) from pixels of half a cell on.
//
// Doubtful (engine/site/doubtful.h): a projection off by more than 1 % there (web maps' Mercator
// counts 1 / cos latitude), pixels more than 20 times the cell, and a projection that puts the yard
// more than 1 degree from the site's `place`: the sun of one, the ground of the other.
//
// No height inside the outline, or within one cell of it, is an error that names the place. Farther
// out, in the margin, the nearest height is used and noted.
//
// Text grids are scanned before GDAL sees them, for it reads what is no number as 0 in silence.
// GDAL's drivers are registered only here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/ground/survey_record.h"
#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

geom::Heightfield raster_survey(const Ground& ground, const Polygon& outline, Vec2 origin,
                                const geom::Box2& area, SurveyRecord& record,
                                const Progress& progress,
                                const std::vector<std::string>& accept = {},
                                const std::optional<Place>& place = {});

}  // namespace hummock::ground
