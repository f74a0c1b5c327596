// The earthworks in a reviewer's words, and what their figures are.
#include <fmt/format.h>

#include "engine/earthworks/earthworks_json.h"

namespace hummock::earthworks {

void add_findings(const Result& r, const Model&, FindingList& list) {
  if (r.too_steep_area_m2 < 0.05) return;
  list.push_back({Severity::look, "earthworks", "",
                  fmt::format("{} m² of ground are steeper than the soil holds ({:.0f}°, {})",
                              plain_figure(r.too_steep_area_m2), r.repose_deg, r.repose_source),
                  "flatten, terrace or retain it", std::nullopt});
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"earthworks.cut_m3", "earth to dig off", "m³", 1, Better::less,
       "Volume between the surveyed ground and the lower finished one, in place."},
      {"earthworks.fill_m3", "earth to fill", "m³", 1, Better::less,
       "Volume between the surveyed ground and the higher finished one, in place."},
      {"earthworks.balance_m3", "earth to bring in (+) or take away (−)", "m³", 1, Better::neither,
       "Fill less cut, before earth swells."},
      {"earthworks.cut_area_m2", "area dug off", "m²", 1, Better::neither,
       "Plan area on which ground is cut."},
      {"earthworks.fill_area_m2", "area filled", "m²", 1, Better::neither,
       "Plan area on which ground is filled."},
      {"earthworks.deepest_cut_m", "deepest cut", "m", 2, Better::neither,
       "Greatest depth of cut against the survey."},
      {"earthworks.highest_fill_m", "highest fill", "m", 2, Better::neither,
       "Greatest height of fill against the survey."},
      {"earthworks.repose_deg", "steepest the soil holds", "°", 0, Better::neither,
       "The limit used for the site's soil."},
      {"earthworks.steepest_deg", "steepest ground inside", "°", 0, Better::less,
       "Greatest slope of the finished ground inside the boundary."},
      {"earthworks.too_steep_area_m2", "ground steeper than the soil holds", "m²", 1, Better::less,
       "Plan area inside the boundary that is steeper than the soil is taken to hold."}};
  return rows;
}

}  // namespace hummock::earthworks
