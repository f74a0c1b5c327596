#include "engine/model/import_mesh.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>

#include <assimp/Importer.hpp>
#include <cmath>

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
  if (text.size() > kMost) text = text.substr(0, kMost) + "…";
  return text.empty() ? "cannot be read as a mesh" : text;
}

void gather_mesh(const aiMesh& from, const aiMatrix4x4& place, Mesh& to) {
  const auto first = static_cast<std::uint32_t>(to.vertices.size());
  for (unsigned v = 0; v < from.mNumVertices; ++v) {
    const aiVector3D p = place * from.mVertices[v];
    to.vertices.push_back({p.x, p.y, p.z});
  }
  const bool mirrored = place.Determinant() < 0.0F;
  for (unsigned f = 0; f < from.mNumFaces; ++f) {
    const aiFace& face = from.mFaces[f];
    if (face.mNumIndices != 3) continue;
    geom::Triangle t{first + face.mIndices[0], first + face.mIndices[1], first + face.mIndices[2]};
    if (mirrored) std::swap(t[1], t[2]);
    to.triangles.push_back(t);
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

}  // namespace

Mesh import_mesh(const std::filesystem::path& file, double scale, const std::string& up,
                 const Where& where) {
  std::error_code failed;
  if (!std::filesystem::is_regular_file(file, failed)) refuse(where, file, "no such file");
  Assimp::Importer importer;
  const aiScene* scene =
      importer.ReadFile(file.string(), aiProcess_Triangulate | aiProcess_JoinIdenticalVertices |
                                           aiProcess_SortByPType);
  if (scene == nullptr) refuse(where, file, in_short(importer.GetErrorString()));
  Mesh mesh;
  if (scene->mRootNode != nullptr) gather(*scene, *scene->mRootNode, aiMatrix4x4(), mesh);
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
