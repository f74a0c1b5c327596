// The families of random yards, and the yard that most of them start from. See yards.h.
#pragma once

#include "tests/witness/yard_text.h"

namespace hummock::witness {

inline constexpr const char* kHigh = "solid";
inline constexpr double kHighWall = 4.0;  // m, out of any animal's leap

using Maker = RandomYard (*)(Random&);
using Makers = std::vector<std::pair<std::string, Maker>>;

Makers barrier_families();  // flush tops, joints, corners, walls
Makers thing_families();    // trees, roofs, shapes, several moves

// The usual yard: one low side (edge 0, along y = 0), the others out of reach.
YardText low_front(Random& random, const Animal& animal, double height,
                   const std::string& kind = "solid", const std::string& more = "",
                   double width = 0.0);
// A step well within the leap, `gap` in front of a thing whose far side is at y.
void step_before(YardText& yard, Random& random, double x, double y, double height);

std::string some_overhang(Random& random);

}  // namespace hummock::witness
