// Entry: gates and vestibules, and where one open door leads.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::entry {

struct GateRow {
  std::string name;
  Vec3 at;
  bool vestibule = false, second_gate = false, window = false;
  double vestibule_depth_m = 0, needed_depth_m = 0;  // keeper and barrow between two doors
  bool long_enough = false;
  bool swing_free = true;
  std::string in_the_swing;  // what stands there
  bool one_open_door_escapes = false;
  std::string leads_to;
  bool met = false;
  std::vector<std::string> faults;
};
struct Settings {
  double keeper_and_barrow = 2.1;  // m, common practice, no source
};
struct Result {
  std::vector<GateRow> gates;
  bool met = false;
};
Result analyse(const Model& model, const Settings& settings = {});

}  // namespace hummock::entry
