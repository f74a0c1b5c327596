// A polyline that is a function of its x: the ground (or the rock) in a vertical section.
#pragma once

#include <vector>

#include "geometry/vec.h"

namespace hummock::dig {

using geom::Vec2;

// Points with strictly rising x, at least one; straight between them, level beyond the ends.
using GroundLine = std::vector<Vec2>;

double height_on(const GroundLine& line, double x);

// Index of the first point with x > `x` (line.size() when there is none).
std::size_t first_beyond(const GroundLine& line, double x);

// Is every point of the straight leg a–b at or below (above) the line, within `slack` metres?
bool stays_below(const GroundLine& line, Vec2 a, Vec2 b, double slack);
bool stays_above(const GroundLine& line, Vec2 a, Vec2 b, double slack);

// Greatest depth of the leg's points below the line, m (negative when all of it is above).
double greatest_depth(const GroundLine& line, Vec2 a, Vec2 b);

// The higher of two lines, with the points where they cross. Both over the same range.
GroundLine upper_of(const GroundLine& p, const GroundLine& q);

// The lower, likewise.
GroundLine lower_of(GroundLine p, GroundLine q);

GroundLine lowered(const GroundLine& line, double by);

}  // namespace hummock::dig
