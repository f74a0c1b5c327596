#include "engine/mesh_export/scene.h"

#include <assimp/GltfMaterial.h>

#include <algorithm>
#include <cmath>

#include "engine/draw/colour_scale.h"
#include "engine/mesh_export/creased.h"
#include "engine/mesh_export/part_colour.h"

namespace hummock::mesh_export {
namespace {

constexpr double kCrease = 30.0 * geom::kDegree;

// sRGB to linear light (IEC 61966-2-1): glTF's colours are linear.
double linear(double c) {
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

aiColor4D to_format(const draw::Colour& c, double opacity, Format format) {
  const bool as_light = format == Format::glb;
  const auto channel = [&](double v) { return static_cast<float>(as_light ? linear(v) : v); };
  return {channel(c.r), channel(c.g), channel(c.b), static_cast<float>(opacity)};
}

// Assimp multiplies base colour's alpha by OPACITY: glb sets the first only, obj the second only.
aiMaterial* make_material(const ExportPart& part, Format format) {
  auto* material = new aiMaterial;  // the scene owns it
  const aiString name(part.glass ? "glass" : to_string(part.surface));
  material->AddProperty(&name, AI_MATKEY_NAME);
  const draw::Colour colour = part.values.empty() ? colour_of(part) : draw::Colour{1, 1, 1, 1};
  const double opacity = part.values.empty() ? part.opacity : 1.0;
  if (format != Format::glb) {
    const aiColor4D full = to_format(colour, 1.0, format);
    const aiColor3D diffuse(full.r, full.g, full.b);
    const auto share = static_cast<float>(opacity);
    material->AddProperty(&diffuse, 1, AI_MATKEY_COLOR_DIFFUSE);
    material->AddProperty(&share, 1, AI_MATKEY_OPACITY);
    return material;
  }
  const aiColor4D base = to_format(colour, opacity, format);
  const float rough = part.glass || part.surface == Surface::water ? 0.1F : 0.9F;
  const float metal = 0.0F;
  const int both_sides = 1;
  material->AddProperty(&base, 1, AI_MATKEY_BASE_COLOR);
  material->AddProperty(&rough, 1, AI_MATKEY_ROUGHNESS_FACTOR);
  material->AddProperty(&metal, 1, AI_MATKEY_METALLIC_FACTOR);
  material->AddProperty(&both_sides, 1, AI_MATKEY_TWOSIDED);
  if (opacity < 1.0) {
    const aiString blend("BLEND");
    material->AddProperty(&blend, AI_MATKEY_GLTF_ALPHAMODE);
  }
  return material;
}

struct Range {
  double lo = 1e300, hi = -1e300;
};

Range range_of_values(const std::vector<ExportPart>& parts) {
  Range r;
  for (const ExportPart& part : parts)
    for (const float v : part.values)
      if (std::isfinite(v)) r = {std::min<double>(r.lo, v), std::max<double>(r.hi, v)};
  return r;
}

draw::Colour colour_of_value(float value, const Range& range) {
  if (!std::isfinite(value)) return {0.5, 0.5, 0.5, 1.0};
  const double span = range.hi - range.lo;
  return draw::sequential(span > 0.0 ? (value - range.lo) / span : 0.5);
}

void add_colours(aiMesh& out, const ExportPart& part, const CreasedMesh& creased,
                 const Range& range, Format format) {
  const bool has_values = !part.values.empty();
  if (format != Format::ply && !(format == Format::glb && has_values)) return;
  out.mColors[0] = new aiColor4D[out.mNumVertices];
  for (unsigned v = 0; v < out.mNumVertices; ++v) {
    const draw::Colour c =
        has_values ? colour_of_value(part.values[creased.from[v]], range) : colour_of(part);
    out.mColors[0][v] = to_format(c, has_values ? 1.0 : part.opacity, format);
  }
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
  const bool smooth = part.kind == PartKind::ground || format == Format::stl;
  const CreasedMesh creased = with_normals(part.mesh, smooth ? geom::kPi : kCrease);
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

// One material for all parts that look alike.
struct Look {
  Surface surface;
  bool glass;
  double opacity;
  bool valued;
  auto operator<=>(const Look&) const = default;  // NOLINT(modernize-use-nullptr): its false alarm
};

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
  if (format == Format::glb)  // x, y, z → x, z, −y
    scene->mRootNode->mTransformation =
        aiMatrix4x4(1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1);
  const Range range = range_of_values(parts);
  scene->mNumMeshes = static_cast<unsigned>(parts.size());
  scene->mMeshes = new aiMesh*[parts.size()];
  std::map<Look, unsigned> looks;
  std::vector<aiMaterial*> materials;
  for (unsigned k = 0; k < parts.size(); ++k) {
    const ExportPart& part = parts[k];
    scene->mMeshes[k] = make_mesh(part, scale, format, range);
    const auto [look, added] = looks.emplace(
        Look{part.surface, part.glass, part.opacity, !part.values.empty()}, materials.size());
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
