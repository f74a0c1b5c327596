// What random yards of these tests hold: boxes, and crowns that drop their leaves.
#pragma once

#include <random>

#include "tests/shade/yards.h"

namespace hummock::shade {

inline double between(std::mt19937& random, double lo, double hi) {
  return std::uniform_real_distribution<double>(lo, hi)(random);
}

// Over 8 x 8 m; the crowns come into leaf in April, so many days one after the other.
inline void add_boxes_and_crowns(Model& m, std::mt19937& random, int days_apart) {
  const auto pick = [&](double lo, double hi) { return between(random, lo, hi); };
  for (int k = 0; k < 4; ++k) {
    const Vec3 at{pick(0, 8), pick(0, 8), -0.5};
    add_solid(m, "box", box_mesh(at, at + Vec3{pick(0.2, 1), pick(0.2, 1), pick(1, 3)}));
  }
  for (int k = 0; k < 3; ++k) {
    Part& crown = add_part(m, "crown", PartKind::crown,
                           ellipsoid({pick(0, 8), pick(0, 8), pick(2, 4)}, {1, 1, 1}, 16));
    crown.leaf_density = 1.1;
    crown.bare = Season{{10 + k, 1}, {4, 1 + days_apart * k}};
  }
}

}  // namespace hummock::shade
