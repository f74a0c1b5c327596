// The model as a mesh file through Assimp: glb, obj, stl, ply.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::mesh_export {

struct Settings {
  std::vector<std::string> parts;  // names or kinds; empty = all
  double scale = 1.0;              // > 0; stl: 0.02 prints 1:50 with metres as the unit
  // Per-part vertex values to write as colours (glb) or a property (ply): name → one a vertex.
  std::map<std::string, std::vector<float>> vertex_values;
};
struct Written {
  std::size_t parts = 0, vertices = 0, triangles = 0;
  bool closed = false;  // stl: one closed solid
};
// Format by extension. STL of the whole model writes the ground as a closed block with the
// solids united. Throws InputError for an unknown extension or part.
Written write(const std::filesystem::path& path, const Model& model, const Settings& settings = {});

}  // namespace hummock::mesh_export
