// Any bytes as a mesh file that makes a promise: our own scanners alone, without Assimp.
#include <array>
#include <cstddef>
#include <cstdint>

#include "engine/model/read/child/promise.h"
#include "engine/model/read/mesh_answer.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static constexpr std::array<const char*, 5> kEndings{".off", ".ply", ".stl", ".obj", ".glb"};
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  for (const char* ending : kEndings) hummock::promise_of(bytes, ending);
  hummock::from_answer(bytes);
  return 0;
}
