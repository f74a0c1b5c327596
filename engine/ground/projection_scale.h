// Where a projection says it is, and how long a metre of it is on the ground.
#pragma once

#include <ogr_srs_api.h>

#include <optional>

#include "geometry/vec.h"

namespace hummock::ground {

// Projected metres for one metre on the ellipsoid at `at` (projected coordinates): of the two along
// x and y the one farther from 1. Taken numerically: two points 100 m apart are turned into
// geographic ones and measured on the ellipsoid with its radii of curvature there (exact to about
// 1e-8 over 100 m). Nothing for a system without a geographic one or a point that has no place on
// Earth in it.
std::optional<double> projection_scale(OGRSpatialReferenceH system, geom::Vec2 at);

// Longitude east and latitude north of `at` (projected coordinates), degrees, on WGS 84. Between
// datums as well as PROJ can without its grids: some 100 m. Nothing for a point that has no place
// on Earth in the system.
std::optional<geom::Vec2> place_on_earth(OGRSpatialReferenceH system, geom::Vec2 at);

// Angle seen from the Earth's middle between two such places, on the sphere; degrees.
double degrees_apart(geom::Vec2 a, geom::Vec2 b);

}  // namespace hummock::ground
