// The water result in a reviewer's words, and what its figures are.
#include <fmt/format.h>

#include "engine/water/water_json.h"

namespace hummock::water {
namespace {

void add_basins(const Result& r, FindingList& list) {
  for (const BasinRow& b : r.basins) {
    if (!b.holds_water) {
      list.push_back({Severity::short_of, "water", b.name,
                      quoted(b.name) + ": the ground does not hold its water at the level drawn",
                      "lower the level, or dig the basin", std::nullopt});
    }
    if (b.lies_beyond)
      list.push_back({Severity::short_of, "water", b.name,
                      quoted(b.name) +
                          ": it lies beyond where it is drawn to end, for the ground "
                          "goes on below its level; its sides there were not looked at",
                      "draw its outline to where it ends", std::nullopt});
    if (b.can_climb_out || b.lies_beyond) continue;
    list.push_back({Severity::look, "water", b.name,
                    fmt::format("{}: no side is flatter than {:.0f}°, the animal may not climb out",
                                quoted(b.name), b.easiest_side_deg),
                    "lay a ramp", std::nullopt});
  }
}

}  // namespace

void add_findings(const Result& r, const Model& model, FindingList& list) {
  add_basins(r, list);
  for (const std::string& name : r.shut_drains) {
    list.push_back(
        {Severity::look, "water", name,
         fmt::format("{}: something stands before this drain; it is taken as shut", quoted(name)),
         "move it a drain's height away", std::nullopt});
  }
  int more = 0;
  for (const Pond& p : r.ponds) {
    if (p.drained || p.depth_m < 0.02 || p.volume_m3 < 0.01) continue;
    if (more++ >= 3) continue;
    list.push_back({Severity::look, "water", "",
                    fmt::format("at {} rain ponds {} m deep over {} m²", place_words(model, p.at),
                                plain_figure(p.depth_m), plain_figure(p.area_m2)),
                    "fill, drain, or make it a wanted pool", Vec3{p.at.x, p.at.y, 0.0}});
  }
  if (more > 3) {
    list.push_back(
        {Severity::look, "water", "",
         fmt::format("rain ponds in {} more place{}, none deeper", more - 3, more == 4 ? "" : "s"),
         "fill, drain, or make them wanted pools", std::nullopt});
  }
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"water.deepest_m", "deepest water", "m", 2, Better::neither,
       "Greatest depth of the drawn basins."},
      {"water.ponding_m", "deepest pond that rain leaves", "m", 3, Better::less,
       "Greatest depth of rain that stands in a hollow outside drawn water."},
      {"water.ponding_area_m2", "area of ponded rain", "m²", 1, Better::less,
       "Area inside the boundary, outside drawn water, on which rain stands."},
      {"water.ponding_volume_m3", "volume of ponded rain", "m³", 2, Better::less,
       "Volume of rain that stands inside the boundary outside drawn water."},
      {"water.area_m2", "area of drawn water", "m²", 1, Better::neither,
       "Area of the water of all basins at the level drawn."},
      {"water.volume_m3", "volume of drawn water", "m³", 1, Better::neither,
       "Volume of the water of all basins at the level drawn."},
      {"water.climb_out_share", "basins the animal can climb out of", "of 1", 2, Better::more,
       "Share of the basins with some side no steeper than it stands on; 1 without a basin."},
      {"water.easiest_side_deg", "easiest side of the basin that is hardest to leave", "°", 0,
       Better::less, "The steepest rise on the easiest way out of that basin."}};
  return rows;
}

}  // namespace hummock::water
