// One closed solid of the model, or of parts of it, for printing.
#pragma once

#include <string>
#include <vector>

#include "engine/mesh_export/mesh_export.h"

namespace hummock::mesh_export {

struct PrintSolid {
  geom::Mesh mesh;  // closed, outward; metres of the model, unscaled
  std::size_t parts = 0;
  std::vector<std::string> notes;
};

// As mesh_export.h says of STL. Throws InputError when no solid can be made.
PrintSolid print_solid(const Model& model, const Settings& settings, const Progress& progress);

}  // namespace hummock::mesh_export
