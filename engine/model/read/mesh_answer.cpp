#include "engine/model/read/mesh_answer.h"

#include <algorithm>
#include <cstring>
#include <nlohmann/json.hpp>

namespace hummock {
namespace {

using nlohmann::json;

template <class Item>
void append_raw(std::string& out, const std::vector<Item>& items) {
  static_assert(std::is_trivially_copyable_v<Item>);
  out.append(reinterpret_cast<const char*>(items.data()), items.size() * sizeof(Item));
}

template <class Item>
bool take_raw(std::string_view& bytes, std::size_t count, std::vector<Item>& items) {
  if (count > bytes.size() / sizeof(Item)) return false;
  items.resize(count);
  if (count > 0) std::memcpy(items.data(), bytes.data(), count * sizeof(Item));
  bytes.remove_prefix(count * sizeof(Item));
  return true;
}

bool corners_are_there(const geom::Mesh& mesh) {
  const std::size_t count = mesh.vertices.size();
  return std::all_of(mesh.triangles.begin(), mesh.triangles.end(), [&](const geom::Triangle& t) {
    return t[0] < count && t[1] < count && t[2] < count;
  });
}

}  // namespace

std::string to_answer(const MeshAnswer& answer) {
  json files = json::array();
  for (const InputFile& f : answer.read) files.push_back({f.role, f.name, f.sha256, f.bytes});
  const json head{{"vertices", answer.mesh.vertices.size()},
                  {"triangles", answer.mesh.triangles.size()},
                  {"files", files}};
  std::string out = head.dump(-1, ' ', true, json::error_handler_t::replace) + "\n";
  append_raw(out, answer.mesh.vertices);
  append_raw(out, answer.mesh.triangles);
  return out;
}

std::optional<MeshAnswer> from_answer(std::string_view bytes) {
  const std::size_t end = std::min(bytes.find('\n'), bytes.size());
  const json head = json::parse(bytes.substr(0, end), nullptr, false);
  MeshAnswer out;
  try {
    bytes.remove_prefix(std::min(end + 1, bytes.size()));
    if (!take_raw(bytes, head.at("vertices").get<std::size_t>(), out.mesh.vertices) ||
        !take_raw(bytes, head.at("triangles").get<std::size_t>(), out.mesh.triangles) ||
        !bytes.empty() || !corners_are_there(out.mesh)) {
      return std::nullopt;
    }
    for (const json& f : head.at("files")) {
      out.read.push_back({f.at(0), f.at(1), f.at(2), f.at(3)});
    }
  } catch (const json::exception&) {
    return std::nullopt;
  }
  if (out.read.empty()) return std::nullopt;
  return out;
}

}  // namespace hummock
