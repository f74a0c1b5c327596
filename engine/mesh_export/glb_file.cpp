#include "engine/mesh_export/glb_file.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <limits>
#include <map>
#include <nlohmann/json.hpp>

#include "engine/base/resource_error.h"
#include "engine/base/version.h"
#include "engine/mesh_export/creased.h"

namespace hummock::mesh_export {
namespace {

using nlohmann::json;

// Numbers of the specification's enumerations.
constexpr int kFloat = 5126, kUnsigned = 5125;
constexpr int kVertices = 34962, kIndices = 34963;
constexpr int kTriangles = 4;

void put(std::string& to, std::uint32_t value) {  // little-endian, as the format is
  for (int k = 0; k < 4; ++k) to.push_back(static_cast<char>(value >> (8 * k) & 0xFFU));
}
void put(std::string& to, float value) {
  std::uint32_t bits = 0;
  std::memcpy(&bits, &value, sizeof bits);
  put(to, bits);
}

class GlbWriter {
 public:
  explicit GlbWriter(const Range& range) : range_(range) {}

  // Room for so much, so that it is not copied as it grows.
  void reserve(std::size_t vertices, std::size_t triangles, std::size_t parts) {
    constexpr std::size_t kHead = 1024;  // bytes of JSON a part
    bytes_.reserve(24 * vertices + 12 * triangles + kHead * (parts + 4));
  }

  void add(const ExportPart& part, double scale, SceneSize& size) {
    const CreasedMesh creased = with_normals(part.mesh, crease_of(part, Format::glb));
    const auto& vertices = creased.mesh.vertices;
    json attributes;
    attributes["POSITION"] = add_vectors(vertices, scale);
    attributes["NORMAL"] = add_vectors(creased.normals, 1.0);
    if (has_vertex_colours(part, Format::glb)) attributes["COLOR_0"] = add_colours(part, creased);
    const json primitive{{"mode", kTriangles},
                         {"material", material(part)},
                         {"indices", add_indices(creased.mesh.triangles)},
                         {"attributes", attributes}};
    nodes_.push_back({{"name", part.node}, {"mesh", meshes_.size()}});
    meshes_.push_back({{"name", part.node}, {"primitives", json::array({primitive})}});
    size.vertices += vertices.size();
    size.triangles += creased.mesh.triangles.size();
  }

  std::string file(const std::string& site_name) {
    std::string head = document(site_name).dump(-1, ' ', false, json::error_handler_t::replace);
    head.resize((head.size() + 3) / 4 * 4, ' ');
    const std::uint64_t length = 12 + 8 + head.size() + 8 + bytes_.size();
    if (length > std::numeric_limits<std::uint32_t>::max())
      throw ResourceError("a glb file of more than 4 GB: a larger `cell` in [ground] makes less");
    std::string start;
    put(start, 0x46546C67U);  // "glTF"
    put(start, 2U);
    put(start, static_cast<std::uint32_t>(length));
    put(start, static_cast<std::uint32_t>(head.size()));
    put(start, 0x4E4F534AU);  // "JSON"
    start += head;
    put(start, static_cast<std::uint32_t>(bytes_.size()));
    put(start, 0x004E4942U);  // "BIN"
    bytes_.insert(0, start);
    return std::move(bytes_);
  }

 private:
  std::size_t add_view(std::size_t from, int target) {
    views_.push_back({{"buffer", 0},
                      {"byteOffset", from},
                      {"byteLength", bytes_.size() - from},
                      {"target", target}});
    return views_.size() - 1;
  }
  std::size_t add_accessor(json accessor) {
    accessors_.push_back(std::move(accessor));
    return accessors_.size() - 1;
  }

  std::size_t add_vectors(const std::vector<Vec3>& vectors, double scale) {
    const std::size_t from = bytes_.size();
    constexpr float kFar = std::numeric_limits<float>::infinity();
    std::array<float, 3> least{kFar, kFar, kFar}, most{-kFar, -kFar, -kFar};
    for (const Vec3& v : vectors) {
      const Vec3 s = v * scale;
      const std::array<float, 3> at{static_cast<float>(s.x), static_cast<float>(s.y),
                                    static_cast<float>(s.z)};
      for (std::size_t k = 0; k < 3; ++k) {
        put(bytes_, at[k]);
        least[k] = std::min(least[k], at[k]);
        most[k] = std::max(most[k], at[k]);
      }
    }
    return add_accessor({{"bufferView", add_view(from, kVertices)},
                         {"componentType", kFloat},
                         {"count", vectors.size()},
                         {"type", "VEC3"},
                         {"min", least},
                         {"max", most}});
  }
  std::size_t add_colours(const ExportPart& part, const CreasedMesh& creased) {
    const std::size_t from = bytes_.size();
    for (const std::uint32_t v : creased.from)
      for (const float c : vertex_colour(part, v, range_, Format::glb)) put(bytes_, c);
    return add_accessor({{"bufferView", add_view(from, kVertices)},
                         {"componentType", kFloat},
                         {"count", creased.from.size()},
                         {"type", "VEC4"}});
  }
  std::size_t add_indices(const std::vector<geom::Triangle>& triangles) {
    const std::size_t from = bytes_.size();
    for (const geom::Triangle& t : triangles)
      for (const std::uint32_t v : t) put(bytes_, v);
    return add_accessor({{"bufferView", add_view(from, kIndices)},
                         {"componentType", kUnsigned},
                         {"count", 3 * triangles.size()},
                         {"type", "SCALAR"}});
  }
  std::size_t material(const ExportPart& part) {
    const auto [look, added] = looks_.emplace(look_of(part), materials_.size());
    if (!added) return look->second;
    const double opacity = part.values.empty() ? part.opacity : 1.0;
    const bool shines = part.glass || part.surface == Surface::water;
    json material{{"name", material_name(part)},
                  {"doubleSided", true},
                  {"pbrMetallicRoughness",
                   {{"baseColorFactor", material_colour(part, opacity, Format::glb)},
                    {"metallicFactor", 0.0F},
                    {"roughnessFactor", shines ? 0.1F : 0.9F}}}};
    if (opacity < 1.0) material["alphaMode"] = "BLEND";
    materials_.push_back(std::move(material));
    return look->second;
  }
  json document(const std::string& site_name) const {
    json children = json::array(), nodes = json::array();
    for (std::size_t k = 0; k < nodes_.size(); ++k) children.push_back(k + 1);
    nodes.push_back({{"name", site_name.empty() ? "site" : site_name},
                     {"matrix", {1, 0, 0, 0, 0, 0, -1, 0, 0, 1, 0, 0, 0, 0, 0, 1}},
                     {"children", std::move(children)}});
    for (const json& node : nodes_) nodes.push_back(node);
    return {{"asset", {{"version", "2.0"}, {"generator", std::string("hummock ") + version()}}},
            {"scene", 0},
            {"scenes", json::array({{{"nodes", {0}}}})},
            {"nodes", std::move(nodes)},
            {"meshes", meshes_},
            {"materials", materials_},
            {"accessors", accessors_},
            {"bufferViews", views_},
            {"buffers", json::array({{{"byteLength", bytes_.size()}}})}};
  }

  Range range_;
  std::string bytes_;
  std::map<Look, std::size_t> looks_;
  json nodes_ = json::array(), meshes_ = json::array(), materials_ = json::array(),
       accessors_ = json::array(), views_ = json::array();
};

}  // namespace

std::string glb_bytes(const std::vector<ExportPart>& parts, const std::string& site_name,
                      double scale, SceneSize& size) {
  GlbWriter writer(range_of_values(parts));
  std::size_t vertices = 0, triangles = 0;
  for (const ExportPart& part : parts) {
    vertices += part.mesh.vertices.size();
    triangles += part.mesh.triangles.size();
  }
  writer.reserve(vertices, triangles, parts.size());
  for (const ExportPart& part : parts) writer.add(part, scale, size);
  return writer.file(site_name);
}

}  // namespace hummock::mesh_export
