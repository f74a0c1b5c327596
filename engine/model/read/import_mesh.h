// A mesh file as one triangle mesh, through Assimp.
//
// Every node's meshes are gathered with their transforms, corners in one place joined (1e-6 of the
// model's size), points and lines dropped. Nothing is repaired: a mesh with holes comes back open.
//
// The file may be hostile: it is read by a process of its own (read/child/) with 512 MB + 64 times
// its size of memory (8 GB at most) and 20 s + 1 s a MB of time, which opens nothing but plain
// files of the mesh's own folder; what the file promises of itself is compared with what came
// (read/child/promise.h).
#pragma once

#include <filesystem>
#include <limits>
#include <vector>

#include "engine/base/input_file.h"
#include "engine/base/progress.h"
#include "geometry/mesh/mesh.h"

namespace hummock {

struct MeshAsk {
  std::filesystem::path file;
  double scale = 1.0;    // > 0, multiplies all coordinates
  std::string up = "z";  // the file's upright axis, x, y or z, turned to z by a cyclic swap of axes
  Where where;           // the site file's key, for errors
  // m; a larger extent along an axis is refused before any work, naming `scale`
  double widest = std::numeric_limits<double>::infinity();
};
struct ImportedMesh {
  geom::Mesh mesh;
  std::vector<InputFile> read;  // the mesh and what it named, as it was read
};

// Throws InputError when the file is missing, cannot be read, or holds no triangle with an area;
// ResourceError when this process's own memory limit is what the reader ran into; Cancelled.
ImportedMesh import_mesh(const MeshAsk& ask, const Progress& progress = {});

geom::Mesh import_mesh(const std::filesystem::path& file, double scale, const std::string& up,
                       const Where& where);

}  // namespace hummock
