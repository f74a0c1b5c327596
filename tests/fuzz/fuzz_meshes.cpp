// Any bytes as a mesh file, through the code of the reader's process without its limits: what is
// ours there (promises, gathering, answers) must hold. The first byte chooses the format. A crash
// inside Assimp ends only the child in the program; here it is a finding to be told as the
// library's.
#include <array>
#include <cstdlib>

#include "engine/model/read/child/scene_mesh.h"
#include "engine/model/read/mesh_answer.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static constexpr std::array<const char*, 7> kFormats{"m.off", "m.ply",  "m.stl", "m.obj",
                                                       "m.glb", "m.gltf", "m.dae"};
  if (size == 0) return 0;
  std::string bytes(reinterpret_cast<const char*>(data + 1), size - 1);
  try {
    const hummock::SceneMesh scene =
        hummock::read_scene(kFormats[data[0] % kFormats.size()], std::move(bytes));
    if (!scene.trouble.empty()) return 0;
    const auto back =
        hummock::from_answer(hummock::to_answer(hummock::MeshAnswer{scene.mesh, scene.read}));
    if (!back || back->mesh.triangles.size() != scene.mesh.triangles.size()) std::abort();
  } catch (const std::bad_alloc&) {
  }
  return 0;
}
