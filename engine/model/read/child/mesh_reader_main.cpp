// hummock-read-mesh: reads one mesh file and says its triangles on standard output (mesh_answer.h).
//
// Started by import_mesh with limits on time and memory; not meant for hands. Exit status: 0 a
// mesh, 2 none (the answer says why), 3 out of memory.
#include <unistd.h>

#include <new>

#include "engine/base/child_process.h"
#include "engine/model/read/child/scene_mesh.h"
#include "engine/model/read/mesh_answer.h"

namespace {

bool say(std::string_view text) {
  while (!text.empty()) {
    const ssize_t wrote = ::write(STDOUT_FILENO, text.data(), text.size());
    if (wrote <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(wrote));
  }
  return true;
}

int read_and_say(const char* file) {
  const hummock::SceneMesh scene = hummock::read_scene(file);
  if (!scene.trouble.empty()) return say(scene.trouble) ? 2 : 3;
  const std::string answer = hummock::to_answer({scene.mesh, scene.read});
  return say(answer) ? 0 : 3;
}

}  // namespace

int main(int argc, char** argv) {
  if (!hummock::take_limits(argc, argv) || argc != 2) return 4;
  try {
    return read_and_say(argv[1]);
  } catch (const std::bad_alloc&) {
    return 3;
  }
}
