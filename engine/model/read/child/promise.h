// What a mesh file promises of itself, to be compared with what the reader brought.
//
// Assimp drops what it cannot make sense of in silence: faces whose numbers are none, rows that
// are missing. Here the file is looked at without it:
//   off   every word of the vertex and face rows must be a number, corners below the vertex count,
//         as many rows as the header says (Princeton OFF: n, n corners, colour numbers free)
//   ply   the header's counts of `vertex` and `face`; ASCII: as many rows as all its counts
//   stl   binary: the count in bytes 80 to 83; ASCII: the facets that begin
//   obj   the `f` rows
//   gltf, glb   for every primitive of triangles, strips or fans the accessor's count
//         (glTF 2.0 §3.7.2.1)
// Other formats promise nothing we read.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace hummock {

struct Promise {
  std::optional<std::uint64_t> faces;     // with three corners or more
  std::optional<std::uint64_t> vertices;  // before any joining
  std::string broken;                     // empty, or how the file contradicts itself
};

// `ending` with its dot, lower case.
Promise promise_of(std::string_view bytes, std::string_view ending);

}  // namespace hummock
