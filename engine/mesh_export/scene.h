// Assimp's scene from chosen parts: for OBJ, PLY and STL (glb_file.h writes the other).
#pragma once

#include <assimp/scene.h>

#include <memory>
#include <vector>

#include "engine/mesh_export/part_look.h"

namespace hummock::mesh_export {

struct SceneSize {
  std::size_t vertices = 0, triangles = 0;
};

std::unique_ptr<aiScene> make_scene(const std::vector<ExportPart>& parts, const Model& model,
                                    double scale, Format format, SceneSize& size);

}  // namespace hummock::mesh_export
