// A mesh file as triangles by Assimp, in this process: only for the child that reads (and its
// fuzzer). The face of it for everyone else is import_mesh.h.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/input_file.h"
#include "geometry/mesh/mesh.h"

namespace hummock {

struct SceneMesh {
  geom::Mesh mesh;
  std::vector<InputFile> read;
  std::string trouble;  // empty, or why there is no mesh, in one short line
};

SceneMesh read_scene(const std::filesystem::path& file);
// The same for bytes in memory; `file` gives the ending.
SceneMesh read_scene(const std::filesystem::path& file, std::string bytes);

}  // namespace hummock
