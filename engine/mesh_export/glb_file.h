// Chosen parts as a binary glTF 2.0 file (Khronos, "glTF 2.0 Specification", §4 "GLB File Format",
// §3.6 "Binary Data Storage"): a node, a mesh and a material for each, positions and normals as
// float32, indices as uint32, colours where vertices have values.
//
// Not by the library that writes the other formats: it keeps three copies of a scene and joins
// vertices that are joined already, which took a kilobyte for each node of the ground.
#pragma once

#include <string>
#include <vector>

#include "engine/mesh_export/part_look.h"
#include "engine/mesh_export/scene.h"

namespace hummock::mesh_export {

// The file's bytes. y is up in glTF: the root turns the site's x, y, z to x, z, −y. Throws
// ResourceError when it would be longer than the format's 4 GB.
std::string glb_bytes(const std::vector<ExportPart>& parts, const std::string& site_name,
                      double scale, SceneSize& size);

}  // namespace hummock::mesh_export
