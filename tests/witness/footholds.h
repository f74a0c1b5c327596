// Where a body could be: sample points on every triangle, edge and corner of the exported yard.
//
//   ground   a lattice, and more at the feet of everything; any slope
//   afloat   the same lattice where water is deeper than the animal wades, lifted to its surface
//   face     a triangle no steeper than it stands on
//   hold     a triangle it climbs: its surface is climbed or the thing is scrambled up, and it
//   leans
//            no more than `past_upright` beyond upright
//   branch   the outside of a crown it climbs: climbed like a hold, left like a footing
//   crest    an edge or corner from which no face rises steeply: ridges, rims, free edges
// A point is kept only where a ball of the least opening touches it and is free all round, with
// `crouch` of clear height: seams, gate heads under a panel, a top under its own overhang fall away
// by this, not by a list.
#pragma once

#include "tests/witness/flight.h"

namespace hummock::witness {

enum class Holding { ground, afloat, face, hold, crest, branch };

struct Foothold {
  Vec3 at;      // on the surface
  Vec3 centre;  // of the ball that touches it
  Holding kind = Holding::ground;
  int piece = -1;
  bool coarse = false;  // ground: of the thinner lattice that flights aim at
  bool leaps = true;    // false: crests that are counted as no footing
  Vec3 out;             // crest: from the faces outwards, level, unit
};

struct Yard {
  std::vector<Piece> pieces;
  Rays rays;    // what stops a body
  Rays ground;  // alone
  Rays water;   // alone
  int ground_piece = -1;
};
Yard yard_of(std::vector<Piece> pieces);

struct Spacing {
  double ground = 0.25;  // m
  double faces = 0.20;
  double edges = 0.15;
};

std::vector<Foothold> footholds(const Yard& yard, const Animal& animal, const Spacing& spacing);

}  // namespace hummock::witness
