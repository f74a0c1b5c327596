// The closed solid between two sheets over the same outline.
#pragma once

#include <optional>

#include "geometry/mesh/mesh.h"
#include "geometry/plan/polygon.h"

namespace hummock::geom {

// The single loop of open edges of a sheet, counter-clockwise in plan for a sheet with normals up:
// vertex indices. Nothing when there is none, more than one, or they meet in a point.
std::optional<std::vector<std::uint32_t>> boundary_loop(const Mesh& sheet);

// Joins `bottom` and `top`, both sheets with normals up whose single loop lies on `outline` in plan
// (within 1e-6 m, corners included), by upright walls: a closed mesh, outward. The loops may have
// different points in between. The sheets must not meet inside; that is the caller's to know.
// Nothing when a loop is missing, off the outline, or meets the other.
std::optional<Mesh> solid_between(const Mesh& bottom, const Mesh& top, const Polygon& outline);

// What stands on the polygon from z = lo to hi; empty when the polygon crosses itself.
Mesh prism_on(const Polygon& outline, double lo, double hi);

// The polygon as a flat sheet at height z, normals up.
Mesh flat_sheet(const Polygon& outline, double z);

}  // namespace hummock::geom
