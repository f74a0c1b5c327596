// What takes room from the air: every closed solid that stops a body (stones, logs, trunks, boxes,
// platforms, dens, footings), each counted once where they run into one another.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::space {

struct Furniture {
  // Solids that do not overlap one another; pieces that touched are united (CGAL).
  std::vector<geom::Mesh> solids;
  std::vector<geom::Mesh> pieces;  // the same as single shells that may overlap
  std::vector<std::string> open;  // names of objects that are not closed: their volume is not known
  std::string failed;             // why pieces could not be united, or empty
};

// Only what reaches into the outline's box.
Furniture find_furniture(const Model& model);

}  // namespace hummock::space
