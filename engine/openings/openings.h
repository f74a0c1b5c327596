// Openings: the largest ball that passes anywhere through the barrier. Model: DESIGN §4.4.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::openings {

struct Opening {
  std::string what;  // mesh aperture | under panel | under gate | beside gate | joint | roof edge |
                     // drain | vent | pinch
  std::string thing;  // name in the site file
  Vec3 at;
  double ball_m = 0;    // diameter of the largest ball that passes
  double length_m = 0;  // how long the gap is, along the fence; 0 = a hole
  bool passes = false;  // ball >= least_opening
};
struct Result {
  double largest_m = 0;
  std::vector<Opening> list;  // largest first
  bool met = false;
};
Result analyse(const Model& model);

}  // namespace hummock::openings
