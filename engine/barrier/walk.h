// How an analysis goes along the chains: every stretch is looked at, or passed by for a reason.
//
// An analysis says in one function, Look look(const Stretch&), with a case for every kind of
// stretch and none for "the rest", what it does there, so that a kind that is new does not compile
// until it has; and it is handed what it looks at by runs_of. tests/barrier/walks.cpp holds what
// each analysis has looked at against the chains.
#pragma once

#include "engine/barrier/barrier.h"

namespace hummock::barrier {

enum class Look {
  walked,          // it is looked at
  told_elsewhere,  // the same line is another chain's too: a vestibule's gate
  in_the_air,      // it does not come down to the ground: a roof's edge
  nothing_stands,  // there is no sheet: an opening without a door, an edge without a fence
  built_down,      // masonry, built down into the ground: it has no foot with a gap below
  sill_is_drawn,   // a door's lower edge is told by its sill
  not_lived_in,    // nobody stays in there for long; what leads in is held for a way out
  not_counted      // the model's own limit, said in the analysis' header
};
const char* to_string(Look look);

// What consecutive stretches have in common that another chain's line has cut, or a gate or door
// parts: the same panel (leaf, wall), or the same side of the chain's polygon.
enum class Join { panel, side };

struct Run {
  Stretch whole;                // as the first, but from the first's a to the last's b
  std::vector<Stretch> pieces;  // in order; left and right are theirs
};

// The stretches of the chain that are walked, joined. In the chain's order.
std::vector<Run> runs_of(const Chain& chain, Join join, Look (*look)(const Stretch&));

// The piece of the run that lies at p, a place on it.
const Stretch& piece_at(const Run& run, Vec2 p);

}  // namespace hummock::barrier
