// The most memory a command will have in use at once, foreseen from the site file before anything
// is built: so that a yard too large for the machine is refused before hours of work, not after.
//
// Model. Every command holds the program with its libraries, the built model (so much for each node
// of the ground, each thing on it and each metre of fence), and what its analyses take at their own
// peaks, all of them together: they run side by side and leave their results. The figures are
// fitted to measured peaks (tests/bench/yards/memory.py: yards of 25 m to a hectare at 40 to 5 cm,
// the shipped examples) and carry a margin, kMargin.
//
// Limits. Not a bound: meshes and rasters the site names, other libraries' versions and other
// allocators take what they take. Tested on written yards of several sizes: not under what was
// measured, and not over three times that and 10 MB.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>

#include "engine/site/site.h"

namespace hummock::foresight {

inline constexpr double kMargin = 1.25;  // of what was fitted; numeric, a setting
inline constexpr double kMuch = 0.5;  // share of the free memory worth a word; numeric, a setting

enum class Work { check, report, shade_day, shade_seasons, shade_year, map, mesh, solid };

struct Asked {
  Work work = Work::check;
  std::set<std::string> only;  // analyses of check and report, empty = all; a map's layer
  double shade_cell = 0.0;     // m; 0 = the ground's
  double step_minutes = 10.0;  // between suns
};

// Bytes. The site as read, before it is built.
double foreseen_peak(const Site& site, const Asked& asked);

// What is to be said of a foreseen peak before the start. Nothing: it is below kMuch of what is
// free, or nobody knows what is free.
struct Word {
  std::string line;
  bool refuse = false;  // more than there is
};
std::optional<Word> word_on(double foreseen_bytes, std::optional<std::uint64_t> free_bytes);

}  // namespace hummock::foresight
