// Small random yards for the witnesses that try everything.
#pragma once

#include <random>

#include "tests/support/yard.h"

namespace hummock::leap {

// A yard of about two metres with boxes that may touch, lean on the fence or stand under its
// overhang.
inline Site random_yard(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  const double width = between(1.6, 2.2);
  const double depth = between(1.3, 1.8);
  Site site = test::yard(width, depth, between(0.45, 0.8), SheetKind::solid);
  // One draw a line: the order in which arguments are evaluated is the compiler's own.
  const double leap_height = between(0.3, 0.5), leap_distance = between(0.5, 1.0);
  site.species = test::test_animal(leap_height, leap_distance);
  site.species.body.value[2] = 0.1;
  site.ground.margin = 0.5;
  site.boundary.sections[0].panel = 5.0;
  if (seed % 2 == 0) {
    site.boundary.sections[0].overhang = Overhang{between(0.1, 0.3), between(-0.3, 0.9)};
  }
  if (seed % 3 == 0) site.species.grip.value = between(0.0, 0.06);
  const int boxes = static_cast<int>(seed % 4);
  for (int k = 0; k < boxes; ++k) {
    const Vec2 at{between(0.35, width - 0.35), between(0.35, depth - 0.35)};
    const Vec3 size{between(0.2, 0.5), between(0.2, 0.5), between(0.15, 0.6)};
    Object& box = test::add_box(site, "box " + std::to_string(k), at, size);
    box.turn = between(0.0, 1.5);
    // A shelf to jump round.
    if (k == 2) box.z = between(0.1, 0.5), box.size.z = 0.05;
  }
  return site;
}

}  // namespace hummock::leap
