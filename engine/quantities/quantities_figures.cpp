#include "engine/quantities/kinds.h"
#include "engine/quantities/quantities_json.h"

namespace hummock::quantities {
namespace {

FigureInfo sum(const char* key, const char* title, const char* unit, int decimals) {
  return {std::string("quantities.") + key,
          title,
          unit,
          decimals,
          Better::neither,
          "Sum of the rows of this kind in the schedule of quantities."};
}

}  // namespace

const FigureRows& figure_rows() {
  static const FigureRows rows = [] {
    FigureRows sums{sum("fence_m", "length of fence", "m", 1),
                    sum("mesh_m2", "mesh of the fence", "m²", 1),
                    sum("glass_m2", "glass of the fence", "m²", 1),
                    sum("wall_m2", "solid wall, one face", "m²", 1),
                    sum("overhang_m", "length of overhang", "m", 1),
                    sum("overhang_m2", "overhang", "m²", 1),
                    sum("buried_m2", "skirt in the ground", "m²", 1),
                    sum("apron_m2", "apron", "m²", 1),
                    sum("footing_m3", "footing", "m³", 2),
                    sum("post_count", "posts of the fence", "", 0),
                    sum("gate_count", "gates", "", 0),
                    sum("vestibule_m2", "vestibules", "m²", 1),
                    sum("drain_count", "drains", "", 0),
                    sum("roof_m2", "roof", "m²", 1),
                    sum("stone_t", "stone", "t", 2),
                    sum("stone_count", "stones", "", 0),
                    sum("log_m3", "logs", "m³", 2),
                    sum("tree_count", "trees", "", 0),
                    sum("box_count", "boxes", "", 0),
                    sum("object_post_count", "posts that stand free", "", 0),
                    sum("platform_m2", "platforms", "m²", 1),
                    sum("modelled_m3", "modelled things", "m³", 2),
                    sum("modelled_count", "modelled things that are not closed", "", 0),
                    sum("den_count", "dens", "", 0),
                    sum("burrow_m", "built burrow", "m", 1),
                    sum("house_m2", "house floor", "m²", 1),
                    sum("cut_m3", "earth to dig off", "m³", 1),
                    sum("fill_m3", "earth to fill", "m³", 1),
                    sum("bring_in_m3", "earth to bring in", "m³", 1),
                    sum("take_away_m3", "earth to take away", "m³", 1),
                    sum("water_m2", "water surface", "m²", 1),
                    sum("water_m3", "water", "m³", 1),
                    sum("basin_m2", "bed of the basins", "m²", 1),
                    sum("planting_m2", "planting", "m²", 1)};
    for (FigureInfo& row : kind_rows()) sums.push_back(std::move(row));
    return sums;
  }();
  return rows;
}

}  // namespace hummock::quantities
