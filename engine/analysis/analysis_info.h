// What an analysis says of itself. The list of analyses (engine/check/analyses.h) is made of these
// and of its functions; everything that walks over analyses walks that list.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/vec.h"

namespace hummock {

// quick: answers within a blink on a yard, and is asked again with every change in the viewer
enum class Cost { quick, slow };

struct AnalysisInfo {
  std::string name;       // its object in the JSON, and the first part of its figures' keys
  std::string question;   // what a reviewer asks it
  std::string group;      // chapter of the report (engine/report/chapters/brief_groups.h)
  std::string explained;  // header with model, limits and sources
  Cost cost = Cost::quick;
  std::vector<std::string> after = {};       // analyses whose results it reads
  std::vector<std::string> depends_on = {};  // tables of the site file that can change its answer
  // What it computes and what it does not, for `hummock help models`, in plain letters; empty where
  // the page itself (assets/help/models.txt) has a section for it.
  std::string model = {};
  std::string limits = {};
};

// A map on the ground's grid.
struct LayerInfo {
  std::string name;          // "slope"
  std::string title;         // "Hours of direct sun"
  std::string unit;          // "h"
  bool two_sided = false;    // zero is the middle of its scale
  bool of_the_day = false;   // other on another day
  bool of_the_hour = false;  // other at another hour
};

// Where the figures of an analysis are to be looked for, in local coordinates.
struct LookAt {
  geom::Vec3 at;
  double radius = 2.0;  // m worth seeing round it
};

}  // namespace hummock
