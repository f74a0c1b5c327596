#include "engine/surfaces/surfaces_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "engine/grammar/tables.h"

namespace hummock::surfaces {
namespace {

using nlohmann::json;

json or_null(const std::optional<double>& value) {
  return value ? json(*value) : json(nullptr);
}

json json_of(const Diggable& dig) {
  return {{"depth_m", dig.depth_m},
          {"area_m2", dig.area_m2},
          {"least_depth_m", or_null(dig.least_m)},
          {"mean_depth_m", or_null(dig.mean_m)}};
}

json json_of(const Cover& cover) {
  json out{{"all", cover.all}};
  for (std::size_t b = 0; b < kBandWords.size(); ++b) out[kBandWords[b].key] = cover.bands[b];
  return out;
}

json json_of(const Plants& plants) {
  json kinds = json::object();
  for (std::size_t k = 0; k < kPlantKinds; ++k) kinds[plant_words()[k]] = plants.kind_m2[k];
  json leaves = json::object();
  for (std::size_t k = 0; k < kLeaves; ++k) leaves[leaf_words()[k]] = plants.leaf_m2[k];
  return {{"planted_share", plants.planted_share},
          {"evergreen_share", plants.evergreen_share},
          {"kinds_m2", kinds},
          {"leaves_m2", leaves},
          {"cover", json_of(plants.in_leaf)},
          {"cover_bare", json_of(plants.bare)}};
}

class Put {
 public:
  explicit Put(Figures& figures) : figures_(figures) {}
  void operator()(const std::string& key, double value) const {
    figures_["surfaces." + key].value = value;
  }
  void operator()(const std::string& key, const std::optional<double>& value) const {
    if (value) (*this)(key, *value);
  }
  // More of it may lie where nothing is said.
  void no_less(const std::string& key, double value, const std::string& why) const {
    Figure& figure = figures_["surfaces." + key];
    figure.value = value;
    if (why.empty()) return;
    figure.outcome = Outcome::bounded;
    figure.bounded_below = value;
    figure.why = why;
  }

 private:
  Figures& figures_;
};

// Why there may be more of something than is said; empty where all is said.
std::string unsaid(double area_m2, const char* of_what) {
  return area_m2 > 0.0 ? fmt::format("{} m² {}", plain_figure(area_m2), of_what) : "";
}
std::string ground_unsaid(const Result& result) {
  return unsaid(result.unsaid_m2, "of the ground are in no [[surface]]");
}

void put_materials(const Result& result, const Put& put) {
  const std::string why = ground_unsaid(result);
  for (std::size_t m = 0; m < kMaterials; ++m) {
    const MaterialRow& row = result.materials[m];
    const std::string& name = material_words()[m];
    put.no_less(name + "_m2", row.area_m2, why);
    put.no_less(name + "_share", row.share, why);
    put(name + "_least_depth_m", row.least_m);
    put(name + "_mean_depth_m", row.mean_m);
  }
}

// Ground that is not said may be dug as well, and so may what does not say its depth.
std::string dig_unsaid(const Result& result) {
  double depth_unsaid = 0.0;
  for (std::size_t m = 0; m < kMaterials; ++m)
    if (is_dug(static_cast<Material>(m))) depth_unsaid += result.materials[m].depth_unsaid_m2;
  const std::string ground = ground_unsaid(result);
  return ground.empty() ? unsaid(depth_unsaid, "of soft ground do not say their depth") : ground;
}

void put_dig(const Result& result, const Put& put) {
  const std::string why = dig_unsaid(result);
  put.no_less("diggable_m2", result.dig.area_m2, why);
  put.no_less("diggable_share",
              result.usable_m2 > 0.0 ? result.dig.area_m2 / result.usable_m2 : 0.0, why);
  put("diggable_least_depth_m", result.dig.least_m);
  put("diggable_mean_depth_m", result.dig.mean_m);
  for (std::size_t d = 0; d < kDigWords.size(); ++d)
    put.no_less(fmt::format("diggable_{}_m2", kDigWords[d]), result.digs[d].area_m2, why);
}

void put_cover(const Cover& cover, const std::string& name, const Put& put) {
  put(name + "_share", cover.all);
  for (std::size_t b = 0; b < kBandWords.size(); ++b)
    put(fmt::format("{}_{}_share", name, kBandWords[b].key), cover.bands[b]);
}

void put_plants(const Plants& plants, const Put& put) {
  const std::string no_kind = unsaid(plants.kind_m2[0], "of planted ground do not say what grows");
  for (std::size_t k = 1; k < kPlantKinds; ++k)
    put.no_less(plant_words()[k] + "_m2", plants.kind_m2[k], no_kind);
  const std::string no_leaf = unsaid(plants.leaf_m2[0], "of planted ground do not say their leaf");
  for (std::size_t k = 1; k < kLeaves; ++k)
    put.no_less(leaf_words()[k] + "_leaf_m2", plants.leaf_m2[k], no_leaf);
  put("evergreen_share", plants.evergreen_share);
  put_cover(plants.in_leaf, "cover", put);
  put_cover(plants.bare, "cover_bare", put);
}

}  // namespace

const std::vector<std::string>& material_words() {
  return grammar::surface_table().find("material")->words;
}
const std::vector<std::string>& plant_words() {
  return grammar::planting_table().find("kind")->words;
}
const std::vector<std::string>& leaf_words() {
  return grammar::planting_table().find("leaf")->words;
}

json to_json(const Result& result, const Model& model) {
  json out{{"apart_m", result.apart_m},       {"ground_m2", result.ground_m2},
           {"usable_m2", result.usable_m2},   {"unsaid_m2", result.unsaid_m2},
           {"drained_m2", result.drained_m2}, {"materials", json::object()},
           {"diggable", json_of(result.dig)}, {"diggable_to", json::array()},
           {"layers", json::array()},         {"plants", json_of(result.plants)}};
  for (std::size_t m = 0; m < kMaterials; ++m) {
    const MaterialRow& row = result.materials[m];
    out["materials"][material_words()[m]] = {{"area_m2", row.area_m2},
                                             {"share", row.share},
                                             {"least_depth_m", or_null(row.least_m)},
                                             {"mean_depth_m", or_null(row.mean_m)},
                                             {"depth_unsaid_m2", row.depth_unsaid_m2}};
  }
  for (const Diggable& dig : result.digs) out["diggable_to"].push_back(json_of(dig));
  for (const LayerRow& row : result.layers) {
    const Surfacing& surface = model.site.surfaces[static_cast<std::size_t>(row.surface)];
    out["layers"].push_back(
        {{"name", surface.name},
         {"material", material_words()[static_cast<std::size_t>(surface.material)]},
         {"area_m2", row.area_m2},
         {"depth_m", or_null(surface.depth)},
         {"soil_over_rock_m", or_null(row.rock_m)}});
  }
  return out;
}

void add_figures(const Result& result, const Model& model, Figures& figures) {
  const Put put(figures);
  const double ground = result.ground_m2 > 0.0 ? result.ground_m2 : 1.0;
  put("unsaid_m2", result.unsaid_m2);
  put("unsaid_share", result.unsaid_m2 / ground);
  put("planted_share", result.plants.planted_share);
  put_dig(result, put);
  if (!model.site.surfaces.empty()) {
    put_materials(result, put);
    put("drained_m2", result.drained_m2);
    put("drained_share", result.drained_m2 / ground);
  }
  if (!model.site.plantings.empty()) put_plants(result.plants, put);
}

std::vector<LayerInfo> layers(const Result&) {
  return {{"to-dig", "Ground to dig in (m deep)", "m"}};
}

geom::Raster layer(const Result& result, const std::string&) {
  return result.to_dig;
}

}  // namespace hummock::surfaces
