// Dig: the shortest tunnel out under the barrier. Model: DESIGN §4.4.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::dig {

struct Settings {
  double station_spacing = 0.10;  // m, > 0
};
struct Station {
  Vec2 at;                    // on the fence line, local
  int section = -1;           // or a house
  std::string thing;          // section or house name
  double least_depth_m = 0;   // below the ground straight above, on the tunnel of least depth
  double least_length_m = 0;  // of the shortest tunnel
  bool closed = false;        // rock or liner leaves no way under
  std::string weakness;       // "under the skirt", "round the apron's inner edge" …
  std::vector<Vec3> tunnel;   // only at the worst stations
};
struct BurrowRow {
  std::string name;
  bool within = true;  // stays inside and above the barrier's foot
  double distance_to_barrier_m = 0;
  std::string note;
};
struct Result {
  double least_depth_m = 0, least_length_m = 0;  // over all open stations
  bool any_open = false;
  Station worst;     // least length among stations within dig_depth, else least depth
  bool met = false;  // nowhere within both dig_depth and dig_length
  std::vector<Station> stations;
  std::vector<BurrowRow> burrows;
};
Result analyse(const Model& model, const Settings& settings = {});

}  // namespace hummock::dig
