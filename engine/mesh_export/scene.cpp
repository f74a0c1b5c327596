#include "engine/mesh_export/scene.h"

#include <algorithm>
#include <map>

#include "engine/mesh_export/creased.h"

namespace hummock::mesh_export {
namespace {

aiColor4D to_assimp(const Rgba& c) {
  return {c[0], c[1], c[2], c[3]};
}

aiMaterial* make_material(const ExportPart& part, Format format) {
  auto* material = new aiMaterial;  // the scene owns it
  const aiString name(material_name(part));
  material->AddProperty(&name, AI_MATKEY_NAME);
  const aiColor4D full = to_assimp(material_colour(part, 1.0, format));
  const aiColor3D diffuse(full.r, full.g, full.b);
  const auto share = static_cast<float>(part.values.empty() ? part.opacity : 1.0);
  material->AddProperty(&diffuse, 1, AI_MATKEY_COLOR_DIFFUSE);
  material->AddProperty(&share, 1, AI_MATKEY_OPACITY);
  return material;
}

void add_colours(aiMesh& out, const ExportPart& part, const CreasedMesh& creased,
                 const Range& range, Format format) {
  if (!has_vertex_colours(part, format)) return;
  out.mColors[0] = new aiColor4D[out.mNumVertices];
  for (unsigned v = 0; v < out.mNumVertices; ++v)
    out.mColors[0][v] = to_assimp(vertex_colour(part, creased.from[v], range, format));
}

aiVector3D to_assimp(Vec3 v) {
  return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

std::string spelled(std::string name, Format format) {
  if (format == Format::obj)
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == ' ' || c == '\t' || c == ','; }, '_');
  return name;
}

aiMesh* make_mesh(const ExportPart& part, double scale, Format format, const Range& range) {
  const CreasedMesh creased = with_normals(part.mesh, crease_of(part, format));
  auto* out = new aiMesh;  // the scene owns it
  out->mName = spelled(part.node, format);
  out->mPrimitiveTypes = aiPrimitiveType_TRIANGLE;
  out->mNumVertices = static_cast<unsigned>(creased.mesh.vertices.size());
  out->mVertices = new aiVector3D[out->mNumVertices];
  out->mNormals = new aiVector3D[out->mNumVertices];
  for (unsigned v = 0; v < out->mNumVertices; ++v) {
    out->mVertices[v] = to_assimp(creased.mesh.vertices[v] * scale);
    out->mNormals[v] = to_assimp(creased.normals[v]);
  }
  out->mNumFaces = static_cast<unsigned>(creased.mesh.triangles.size());
  out->mFaces = new aiFace[out->mNumFaces];
  for (unsigned f = 0; f < out->mNumFaces; ++f) {
    const geom::Triangle& t = creased.mesh.triangles[f];
    out->mFaces[f].mNumIndices = 3;
    out->mFaces[f].mIndices = new unsigned[3]{t[0], t[1], t[2]};
  }
  add_colours(*out, part, creased, range, format);
  return out;
}

void add_nodes(aiScene& scene, const std::vector<ExportPart>& parts, Format format) {
  aiNode* root = scene.mRootNode;
  root->mNumChildren = static_cast<unsigned>(parts.size());
  root->mChildren = new aiNode*[parts.size()];
  for (unsigned k = 0; k < parts.size(); ++k) {
    auto* node = new aiNode(spelled(parts[k].node, format));
    node->mParent = root;
    node->mNumMeshes = 1;
    node->mMeshes = new unsigned[1]{k};
    root->mChildren[k] = node;
  }
}

}  // namespace

std::unique_ptr<aiScene> make_scene(const std::vector<ExportPart>& parts, const Model& model,
                                    double scale, Format format, SceneSize& size) {
  auto scene = std::make_unique<aiScene>();
  scene->mRootNode = new aiNode(model.site.name.empty() ? "site" : model.site.name);
  const Range range = range_of_values(parts);
  scene->mNumMeshes = static_cast<unsigned>(parts.size());
  scene->mMeshes = new aiMesh*[parts.size()];
  std::map<Look, unsigned> looks;
  std::vector<aiMaterial*> materials;
  for (unsigned k = 0; k < parts.size(); ++k) {
    const ExportPart& part = parts[k];
    scene->mMeshes[k] = make_mesh(part, scale, format, range);
    const auto [look, added] = looks.emplace(look_of(part), materials.size());
    if (added) materials.push_back(make_material(part, format));
    scene->mMeshes[k]->mMaterialIndex = look->second;
    size.vertices += scene->mMeshes[k]->mNumVertices;
    size.triangles += scene->mMeshes[k]->mNumFaces;
  }
  scene->mNumMaterials = static_cast<unsigned>(materials.size());
  scene->mMaterials = new aiMaterial*[materials.size()];
  std::copy(materials.begin(), materials.end(), scene->mMaterials);
  add_nodes(*scene, parts, format);
  return scene;
}

}  // namespace hummock::mesh_export
