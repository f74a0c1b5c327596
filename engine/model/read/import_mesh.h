// A mesh file as one triangle mesh, through Assimp.
//
// Every node's meshes are gathered with their transforms, corners in one place joined (1e-6 of the
// model's size), points and lines dropped. Nothing is repaired: a mesh with holes comes back open.
#pragma once

#include <filesystem>

#include "engine/base/input_error.h"
#include "geometry/mesh/mesh.h"

namespace hummock {

// `scale` > 0 multiplies all coordinates; `up` is the file's upright axis, x, y or z, turned to z
// by a cyclic swap of axes, which mirrors nothing. `where` is the site file's key, for errors.
// Throws InputError when the file is missing, cannot be read, or holds no triangle with an area.
geom::Mesh import_mesh(const std::filesystem::path& file, double scale, const std::string& up,
                       const Where& where);

}  // namespace hummock
