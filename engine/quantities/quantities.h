// A schedule of quantities: what must be bought and moved.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::quantities {

struct Row {
  std::string item;   // "mesh fence, 2.44 m high"
  std::string where;  // section or object name
  double amount = 0;
  std::string unit;  // m | m² | m³ | no.
  std::string note;
};
std::vector<Row> schedule(const Model& model);

}  // namespace hummock::quantities
