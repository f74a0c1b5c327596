#include "engine/model/read/child/scene_mesh.h"

#include <assimp/scene.h>
#include <fmt/format.h>

#include <algorithm>
#include <assimp/Importer.hpp>
#include <cctype>
#include <new>

#include "engine/base/printable.h"
#include "engine/model/read/assimp_assertions.h"
#include "engine/model/read/child/own_folder_files.h"
#include "engine/model/read/child/promise.h"
#include "engine/model/shapes/face_triangles.h"

namespace hummock {
namespace {

using geom::Mesh;

constexpr int kDeepest = 1000;              // nodes below nodes
constexpr std::size_t kMost = 200'000'000;  // corners in all

struct Trouble {
  std::string words;
};

void gather_mesh(const aiMesh& from, const aiMatrix4x4& place, Mesh& to) {
  const auto first = static_cast<std::uint32_t>(to.vertices.size());
  if (to.vertices.size() + from.mNumVertices > kMost)
    throw Trouble{"more than 200 million corners"};
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
      if (c >= from.mNumVertices) throw Trouble{"a face names a corner that is not there"};
      c += first;
    }
    if (mirrored) std::reverse(corners.begin(), corners.end());
    const auto triangles = face_triangles(to.vertices, corners);
    to.triangles.insert(to.triangles.end(), triangles.begin(), triangles.end());
  }
}

void gather(const aiScene& scene, const aiNode& node, const aiMatrix4x4& above, int depth,
            Mesh& to) {
  if (depth > kDeepest) throw Trouble{"nodes nested more than 1000 deep"};
  const aiMatrix4x4 place = above * node.mTransformation;
  for (unsigned k = 0; k < node.mNumMeshes; ++k) {
    if (node.mMeshes[k] >= scene.mNumMeshes) throw Trouble{"a node names a mesh that is not there"};
    gather_mesh(*scene.mMeshes[node.mMeshes[k]], place, to);
  }
  for (unsigned k = 0; k < node.mNumChildren; ++k)
    gather(scene, *node.mChildren[k], place, depth + 1, to);
}

std::uint64_t faces_of(const aiScene& scene) {
  std::uint64_t faces = 0;
  for (unsigned m = 0; m < scene.mNumMeshes; ++m) {
    for (unsigned f = 0; f < scene.mMeshes[m]->mNumFaces; ++f)
      faces += scene.mMeshes[m]->mFaces[f].mNumIndices >= 3 ? 1 : 0;
  }
  return faces;
}

void keep_to(const Promise& promise, const aiScene& scene) {
  const std::uint64_t came = faces_of(scene);
  if (promise.faces && came < *promise.faces) {
    throw Trouble{fmt::format("it promises {} faces and {} came out of it", *promise.faces, came)};
  }
}

std::string ending_of(const std::filesystem::path& file) {
  std::string ending = file.extension().string();
  for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return ending;
}

std::string about_refused(const OwnFolderFiles& files) {
  if (files.refused().empty()) return {};
  const std::string name = std::filesystem::path(files.refused().front()).filename().string();
  return " (it names '" + printable_line(name, 40) + "', which is no plain file in its own folder)";
}

// The reader's words, with the file's name alone.
std::string without_folder(std::string said, const std::filesystem::path& file) {
  const std::size_t at = said.find(file.string());
  if (at != std::string::npos) said.replace(at, file.string().size(), file.filename().string());
  return said.empty() ? "cannot be read as a mesh" : said;
}

void read_into(SceneMesh& out, const std::filesystem::path& file, OwnFolderFiles* files) {
  Assimp::Importer importer;
  importer.SetIOHandler(files);  // the importer owns it
  try {
    const Promise promise = promise_of(files->mesh_bytes(), ending_of(file));
    if (!promise.broken.empty()) throw Trouble{promise.broken};
    const aiScene* scene = importer.ReadFile(file.string(), 0);
    if (scene == nullptr) {
      throw Trouble{without_folder(importer.GetErrorString(), file) + about_refused(*files)};
    }
    keep_to(promise, *scene);
    if (scene->mRootNode != nullptr) gather(*scene, *scene->mRootNode, aiMatrix4x4(), 0, out.mesh);
    out.read = files->read();
  } catch (const Trouble& trouble) {
    out.trouble = trouble.words;
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& e) {
    out.trouble = *e.what() == '\0' ? "cannot be read as a mesh" : e.what();
  }
  out.trouble = printable_line(out.trouble, 160);
}

}  // namespace

SceneMesh read_scene(const std::filesystem::path& file) {
  SceneMesh out;
  try {
    read_into(out, file, new OwnFolderFiles(file));
  } catch (const InputError& error) {
    out.trouble = error.found();
  }
  return out;
}

SceneMesh read_scene(const std::filesystem::path& file, std::string bytes) {
  SceneMesh out;
  read_into(out, file, new OwnFolderFiles(file, std::move(bytes)));
  return out;
}

}  // namespace hummock
