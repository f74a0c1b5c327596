#include "engine/model/read/import_mesh.h"

#include <assimp/scene.h>

#include <algorithm>
#include <assimp/Importer.hpp>
#include <cmath>
#include <stdexcept>

#include "engine/model/read/guarded_files.h"
#include "engine/model/shapes/face_triangles.h"

// Debian builds Assimp with its assertions on: a damaged file can end the whole program. The
// function below is the one they call; a program's own definition comes before the library's (ELF
// symbol rules), and this one throws instead. Where Assimp is built without assertions nothing
// calls it.
namespace Assimp {
void aiAssertViolation(const char* expression, const char* file, int line);
void aiAssertViolation(const char* expression, const char* /*file*/, int /*line*/) {
  throw std::runtime_error(std::string("damaged: the reader expected ") + expression);
}
}  // namespace Assimp

namespace hummock {
namespace {

using geom::Mesh;
using geom::Vec3;

[[noreturn]] void refuse(const Where& where, const std::filesystem::path& file,
                         const std::string& found) {
  throw InputError(where, "'" + file.filename().string() + "': " + found,
                   "a mesh file with triangles (glb, gltf, obj, ply, stl, off, …)");
}

// The reader's own words, in one short line.
std::string in_short(std::string text) {
  for (char& c : text) {
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  }
  constexpr std::size_t kMost = 160;
  if (text.size() > kMost) {
    text.resize(kMost);
    text += "…";
  }
  return text.empty() ? "cannot be read as a mesh" : text;
}

void gather_mesh(const aiMesh& from, const aiMatrix4x4& place, Mesh& to) {
  const auto first = static_cast<std::uint32_t>(to.vertices.size());
  for (unsigned v = 0; v < from.mNumVertices; ++v) {
    const aiVector3D p = place * from.mVertices[v];
    to.vertices.push_back({p.x, p.y, p.z});
  }
  const bool mirrored = place.Determinant() < 0.0F;
  std::vector<std::uint32_t> corners;
  for (unsigned f = 0; f < from.mNumFaces; ++f) {
    const aiFace& face = from.mFaces[f];
    if (face.mNumIndices < 3) continue;  // a point or a line
    corners.assign(face.mIndices, face.mIndices + face.mNumIndices);
    for (std::uint32_t& c : corners) {
      if (c >= from.mNumVertices)
        throw std::runtime_error("a face names a corner that is not there");
      c += first;
    }
    if (mirrored) std::reverse(corners.begin(), corners.end());
    const auto triangles = face_triangles(to.vertices, corners);
    to.triangles.insert(to.triangles.end(), triangles.begin(), triangles.end());
  }
}

void gather(const aiScene& scene, const aiNode& node, const aiMatrix4x4& above, Mesh& to) {
  const aiMatrix4x4 place = above * node.mTransformation;
  for (unsigned k = 0; k < node.mNumMeshes; ++k) {
    gather_mesh(*scene.mMeshes[node.mMeshes[k]], place, to);
  }
  for (unsigned k = 0; k < node.mNumChildren; ++k) gather(scene, *node.mChildren[k], place, to);
}

Vec3 upright(Vec3 p, const std::string& up) {
  if (up == "y") return {p.z, p.x, p.y};
  if (up == "x") return {p.y, p.z, p.x};
  return p;
}

Mesh read_scene(const std::filesystem::path& file, const Where& where) {
  Assimp::Importer importer;
  importer.SetIOHandler(new GuardedFiles);  // the importer owns it
  Mesh mesh;
  try {
    const aiScene* scene = importer.ReadFile(file.string(), 0);
    if (scene == nullptr) refuse(where, file, in_short(importer.GetErrorString()));
    if (scene->mRootNode != nullptr) gather(*scene, *scene->mRootNode, aiMatrix4x4(), mesh);
  } catch (const InputError&) {
    throw;
  } catch (const std::exception& e) {
    refuse(where, file, in_short(e.what()));
  }
  return mesh;
}

}  // namespace

Mesh import_mesh(const std::filesystem::path& file, double scale, const std::string& up,
                 const Where& where) {
  std::error_code failed;
  if (!std::filesystem::is_regular_file(file, failed)) refuse(where, file, "no such file");
  Mesh mesh = read_scene(file, where);
  for (Vec3& v : mesh.vertices) {
    if (!std::isfinite(v.x) || !std::isfinite(v.y) || !std::isfinite(v.z)) {
      refuse(where, file, "a corner that is not a number");
    }
    v = upright(v, up) * scale;
  }
  const geom::Box3 box = geom::bounds(mesh);
  if (!mesh.empty()) mesh = geom::weld(mesh, 1e-6 * geom::distance(box.lo, box.hi));
  if (mesh.empty() || geom::surface_area(mesh) <= 0.0) refuse(where, file, "no triangles");
  return mesh;
}

}  // namespace hummock
