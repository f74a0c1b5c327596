// How far to move a thing, or lower it, until the leap from it to every exit needs what the brief
// asks: E* = required margin × leap height.
//
// The test is e >= E* for every pair of a piece of the thing and a piece of an exit, flights taken
// as free. That is sufficient for the row's effort to the boundary to meet the brief when the site
// is changed so and checked again (a tested flight never needs less), and necessary where nothing
// shields the exit; behind a shield the true least shift may be smaller. The thing moves rigidly,
// carried on the ground; on uneven ground it is taken to rise by the most the ground rises anywhere
// under its plan, which no way of setting it down exceeds.
//
// move   directions in kDirections equal steps of the compass; in each the shift grows until the
//        test holds, then is closed in to 5 mm; the least is taken and rounded up to 1 cm. The
//        thing must stay inside the outline and clear of houses' walls is not asked. Nothing when
//        no shift up to the animal's range in any direction does.
// lower  by bisection to 5 mm, rounded up to 1 cm; pieces that sink into the ground no longer
//        count. Nothing when even level ground there fails: then the fence is at fault.
#pragma once

#include <optional>
#include <vector>

#include "engine/leap/rows/objects.h"

namespace hummock::leap {

struct Move {
  double by = 0.0;  // m
  geom::Vec2 towards;
};
inline constexpr int kDirections = 32;

std::optional<Move> least_move(const SearchContext& scene, const Furniture& thing);
std::optional<double> least_lowering(const SearchContext& scene, const Furniture& thing);

}  // namespace hummock::leap
