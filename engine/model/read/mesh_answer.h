// How the mesh reader's process says a mesh to ours: a line of JSON with counts and the files it
// read, then the corners (three doubles each) and the triangles (three 32-bit numbers each) as they
// lie in memory. Both are built together and run on one machine.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/input_file.h"
#include "geometry/mesh/mesh.h"

namespace hummock {

struct MeshAnswer {
  geom::Mesh mesh;
  std::vector<InputFile> read;
};

std::string to_answer(const MeshAnswer& answer);

// Nothing when the bytes are no such answer: sizes must fit to the byte, triangles must name
// corners that are there.
std::optional<MeshAnswer> from_answer(std::string_view bytes);

}  // namespace hummock
