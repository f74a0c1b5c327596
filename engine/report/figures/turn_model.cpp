#include "engine/report/figures/turn_model.h"

#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "engine/base/assets.h"
#include "engine/mesh_export/chosen_parts.h"

namespace hummock::report {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

std::optional<std::string> bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  return std::string(std::istreambuf_iterator<char>(in), {});
}

const char* layer_of(PartKind kind) {
  switch (kind) {
    case PartKind::ground:
      return "ground";
    case PartKind::panel:
    case PartKind::post:
    case PartKind::overhang:
    case PartKind::gate:
    case PartKind::vestibule:
    case PartKind::drain_grille:
      return "boundary";
    case PartKind::skirt:
    case PartKind::apron:
    case PartKind::footing:
      return "below ground";
    case PartKind::roof:
      return "roof";
    case PartKind::object:
    case PartKind::den:
      return "furniture";
    case PartKind::crown:
    case PartKind::planting:
      return "leaves";
    case PartKind::water:
      return "water";
    case PartKind::house:
      return "houses";
    case PartKind::surrounding:
      return "surroundings";
  }
  return "furniture";
}

// glTF has y up: x, y, z of the model are x, −z, y there.
json to_gltf(Vec3 v) {
  const auto rounded = [](double x) { return std::round(x * 1e5) / 1e5; };
  return {rounded(v.x), rounded(v.z), rounded(-v.y)};
}

json suns_of(const std::optional<shade::Day>& day) {
  json list = json::array();
  if (!day) return list;
  for (std::size_t k = 0; k < day->times.size(); ++k) {
    list.push_back({{"clock", day->time_labels[k]}, {"towards", to_gltf(day->times[k].towards)}});
  }
  return list;
}

json layers_of(const Model& model) {
  json list = json::array();
  for (const auto& part : mesh_export::chosen_parts(model, {})) {
    list.push_back({{"layer", layer_of(part.kind)}, {"opacity", part.opacity}});
  }
  return list;
}

json size_of(const Model& model) {
  const geom::Box2 box = geom::bounds(model.outline);
  const Vec2 middle = (box.lo + box.hi) * 0.5;
  return {{"middle", to_gltf(geom::at_height(middle, geom::height_at(model.ground, middle)))},
          {"across", geom::length(box.hi - box.lo)}};
}

std::optional<std::vector<std::string>> library() {
  const fs::path three = HUMMOCK_THREE;
  std::vector<std::string> scripts;
  for (const char* name : {"three.min.js", "examples/js/controls/OrbitControls.js",
                           "examples/js/loaders/GLTFLoader.js"}) {
    auto text = bytes_of(three / name);
    if (!text) return std::nullopt;
    scripts.push_back(std::move(*text));
  }
  return scripts;
}

std::string glb_of(const Model& model, const fs::path& folder, const Progress& progress) {
  const fs::path path = folder / "turn-model.part.glb";
  mesh_export::write(path, model, {}, progress);
  std::string bytes = bytes_of(path).value_or("");
  std::error_code ignored;
  fs::remove(path, ignored);
  return bytes;
}

}  // namespace

Model with_thinner_ground(const Model& model, std::size_t most_nodes) {
  Model thin = model;
  const geom::Grid& g = model.ground.grid;
  if (g.size() <= most_nodes) return thin;
  const double share = static_cast<double>(g.size()) / static_cast<double>(most_nodes);
  const int every = static_cast<int>(std::ceil(std::sqrt(share)));
  geom::Grid& t = thin.ground.grid;
  t.cell = g.cell * every;
  t.nx = std::max(2, (g.nx - 1) / every + 1);
  t.ny = std::max(2, (g.ny - 1) / every + 1);
  thin.ground.z.assign(t.size(), 0.0);
  for (int j = 0; j < t.ny; ++j) {
    for (int i = 0; i < t.nx; ++i)
      thin.ground.at(i, j) = geom::height_at(model.ground, t.node(i, j));
  }
  return thin;
}

std::optional<TurnData> turn_data(const Model& model, const std::optional<shade::Day>& day,
                                  const fs::path& folder, const Progress& progress) {
  auto scripts = library();
  if (!scripts) return std::nullopt;
  const fs::path assets = assets_folder() / "report";
  const auto ours = bytes_of(assets / "turn.js");
  const auto licence = bytes_of(assets / "three-licence.txt");
  if (!ours || !licence) {
    throw InputError({(assets / "turn.js").string(), 0, ""}, "no such file", "the shipped assets");
  }
  const Model thin = with_thinner_ground(model, kMostNodes);
  TurnData data;
  data.glb = glb_of(thin, folder, progress);
  data.json =
      json{{"parts", layers_of(thin)}, {"suns", suns_of(day)}, {"size", size_of(thin)}}.dump(
          -1, ' ', false, json::error_handler_t::replace);
  data.scripts = std::move(*scripts);
  data.scripts.push_back(*ours);
  data.licence = *licence;
  return data;
}

}  // namespace hummock::report
