// A person who tends the yard, as room that is needed on the way: an upright disc on plan, from
// what is stepped over up to the head.
//
// The file says nothing of the people. Who is taller than kUpright or broader than kKeeperWidth
// needs more than is asked here.
#pragma once

namespace hummock::keepers {

inline constexpr double kKeeperWidth =
    0.5;                                 // m, clothed, a bucket before; common practice, no source
inline constexpr double kUpright = 1.8;  // m, in boots; common practice, no source
// m: lower than this nobody works with a load. Between the two a person bends. common practice, no
// source.
inline constexpr double kStooped = 1.5;
// m, 9.5 in: the tallest riser of a stair, 29 CFR 1910.25(c)(2), as OSHA's letter of 17 June 2025
// quotes it.
inline constexpr double kRiser = 0.24;
// Rise to run: at 30 degrees stairs begin, 29 CFR 1910.25(c)(1), as the same letter quotes it.
inline constexpr double kSteepestOnFoot = 0.577;
// m: leaves that are lower are waded through; common practice, no source.
inline constexpr double kWadedThrough = 0.5;
// m, of a wheel over an edge; common practice, no source.
inline constexpr double kRolledOver = 0.05;

// m, 30 in: least width of a runway for barrows on scaffolds, 34 Pa. Code 6.27(a) as of November
// 2024. A rule of building sites, taken for want of one for enclosures.
inline constexpr double kBarrowWidth = 0.762;

struct Walker {
  double width = kKeeperWidth;     // m
  double riser = kRiser;           // m, up or down in one step
  double slope = kSteepestOnFoot;  // rise to run
};

}  // namespace hummock::keepers
