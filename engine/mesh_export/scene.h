// Assimp's scene from chosen parts.
#pragma once

#include <assimp/scene.h>

#include <memory>
#include <vector>

#include "engine/mesh_export/chosen_parts.h"

namespace hummock::mesh_export {

enum class Format { glb, obj, stl, ply };

struct SceneSize {
  std::size_t vertices = 0, triangles = 0;
};

std::unique_ptr<aiScene> make_scene(const std::vector<ExportPart>& parts, const Model& model,
                                    double scale, Format format, SceneSize& size);

}  // namespace hummock::mesh_export
