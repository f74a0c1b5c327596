// The surveyed ground from scattered points: a CSV file triangulated by Delaunay.
//
// The file. A header naming x, y and z (other columns are ignored), then a point a line; `,` or `;`
// between the fields; metres, in the site's coordinates. Empty lines and lines that begin with #
// are skipped. A point given twice with one height counts once; with two heights it is refused.
//
// Heights between the points are linear over the Delaunay triangles, so a plane comes out exactly.
// The result does not depend on the order of the lines.
//
// Doubtful (engine/site/doubtful.h): heights outside -500 to 9000 m; points on average more than 20
// cells apart; a hole, an empty circle about a point inside the boundary with a radius of more than
// four times the mean spacing. Detail finer than the cell is lost: where a point inside the
// boundary lies more than 5 cm off the ground as laid, a note names the worst and it counts as
// unseen (lost_detail.h).
//
// The outline, with one cell around it, must lie within the points' convex hull: else an error
// names the place. Farther out, in the margin, the nearest height is used and noted.
#pragma once

#include <string>
#include <vector>

#include "engine/ground/survey_record.h"
#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

geom::Heightfield point_survey(const Ground& ground, const Polygon& outline, Vec2 origin,
                               const geom::Box2& area, SurveyRecord& record,
                               const std::vector<std::string>& accept = {});

}  // namespace hummock::ground
