// A first yard for a species: a site file that is meant to meet every row of the species' brief, to
// be looked at and decided on by a person.
//
// Model. A rectangle with one window for guests on its south side, walls or netting by what the
// animal climbs, a roof where it goes hand over hand or leaps too high, a footing deeper than it
// digs (or a liner under the yard), a keeper's gate with two doors, a house built against the east
// fence from outside, a shelter, shrubs, and a mound, pool and burrow where rows ask for them.
// The numbers are starting points from the species file, at its careful ends (common practice, no
// source); none of them shows that the yard holds: that is the check's to say, which design.h runs
// and by which it raises, roofs and enlarges.
// Limits. One layout, level ground; nothing is the least or the best. Rows on figures the layout
// has no part for stay as the check finds them.
#pragma once

#include <optional>
#include <string>

#include "engine/species/species.h"
#include "geometry/vec.h"

namespace hummock::first_yard {

struct Asked {
  std::string name;                     // of the site
  std::string species;                  // as it is to stand in the site file
  int animals = 1;                      // 1..100000
  std::optional<geom::Vec2> size = {};  // m, width and depth; nothing = by the brief
};

// What the check's answers change. Shares of what the layout would take by itself, but for lengths.
struct Tuning {
  double raise = 0.0;   // m, walls above where they start
  bool roofed = false;  // even where the start is an open yard
  double deepen = 0.0;  // m, the footing
  double room = 1.0;    // of the plan's area
  double shade = 1.0;   // of the shelter's area
  double cover = 1.0;   // of the shrubs' area
  double heap = 1.0;    // of the mounds' height
  double pool = 1.0;    // of its area
  double house = 1.0;   // of its floor
  double mesh = 1.0;    // of the aperture
  friend bool operator==(const Tuning&, const Tuning&) = default;
};

// The site file's text. Same input, same bytes.
std::string first_yard(const Species& species, const Asked& asked, const Tuning& tuning = {});

}  // namespace hummock::first_yard
