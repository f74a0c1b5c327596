// How far to move a thing, or lower it, so that the brief is met there; proven or not said.
//
// Sought. The test is e >= E* = required margin × leap height for every pair of a piece of the
// thing and a piece of an exit, flights taken as free and limbs as long as they reach. The thing
// moves rigidly, carried on the ground; on uneven ground it is taken to rise by the most the ground
// rises anywhere under its plan, which no way of setting it down exceeds.
//
// move   directions in kDirections equal steps of the compass; in each the shift grows until the
//        test holds, then is closed in to 5 mm and rounded up to 1 cm. The thing must stay inside
//        the outline and touch no house, den or other object it did not touch before (hulls of
//        plans, and heights).
// lower  by bisection to 5 mm, rounded up to 1 cm; pieces that sink into the ground no longer
//        count. A little more is tried too, and what it takes to be no step on to another raised
//        thing. The thing is sunk, its shape kept. None for one that stands through the barrier:
//        what of it is outside stays there.
//
// Proven. That test knows only the leap from the thing to an exit. Each candidate, the least first,
// is therefore built and the whole site solved again (keeping, as the live solver does, what the
// change cannot bear, and seeking no more than the verdicts): the thing's row must meet the brief,
// no other row may have a worse verdict, and no way out short of the brief may go from anything
// else that did not before; so what becomes usable where it stood or goes counts. And the yard
// itself is judged: its least demand must be what is asked. Where it is not, it must be no less
// than with the thing sunk out of sight: then no way over the thing is the yard's weakest, and what
// is left to mend lies elsewhere too, which is told (`share_only`). Of a thing's moves at most
// kTried are tried, of a site's candidates kMostProofs; a row whose candidates all failed has none
// (`remedy_sought` without one). Houses and dens get no advice. Not sought for a model built with
// snow, growth or scour, whose allowances are not kept.
#pragma once

#include <vector>

#include "engine/leap/places/site_places.h"
#include "engine/leap/rows/objects.h"

namespace hummock::leap {

struct Move {
  double by = 0.0;  // m
  geom::Vec2 towards;
};
inline constexpr int kDirections = 32;  // a setting of the method
inline constexpr int kTried = 3;        // a setting of the method
inline constexpr int kMostProofs = 12;  // a setting of the method

// By rising shift.
std::vector<Move> moves_to_try(const SearchContext& scene, const Furniture& thing);
std::vector<double> lowerings_to_try(const SearchContext& scene, const Furniture& thing);

// What the answer was made of: kept by a proof where the change cannot bear it.
struct Solved {
  const PlaceRules& rules;
  const SitePlaces& places;
  const std::vector<ExitCost>& exit_costs;  // in the order of the things
};

// Fills in the rows' remedies; rows in the order of `things`.
void find_remedies(const SearchContext& scene, const Solved& solved,
                   const std::vector<Furniture>& things, Result& result);

double bearing_deg(geom::Vec2 towards);         // clockwise from the plan's north, 0..359.9
const char* compass_words(double bearing_deg);  // "north", "north-east" ...

}  // namespace hummock::leap
