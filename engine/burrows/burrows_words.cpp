// Burrow siting in a reviewer's words, and what its figures are.
#include "engine/burrows/burrows_json.h"

namespace hummock::burrows {

void add_findings(const Result& r, const Model&, FindingList& list) {
  for (const DrawnRow& row : r.drawn) {
    const bool hot = row.kind == "burrow" && row.as_spot.shade_11_15 < 0.5;
    if (!hot && row.as_spot.ponding_m <= 0.0 && row.as_spot.veto.empty()) continue;
    list.push_back({Severity::look, "burrows", row.name, row.words, "choose one of the spots named",
                    Vec3{row.at.x, row.at.y, 0.0}});
  }
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"burrows.best_score", "score of the best spot for a burrow", "of 1", 2, Better::more,
       "Mean of the five scores (shade, soil, slope, dryness, distance to the fence) at the best "
       "spot."},
      {"burrows.drawn_least_score", "least score of a drawn burrow", "of 1", 2, Better::more,
       "The same mean at the mouth of the worst of the drawn burrows."},
      {"burrows.drawn_least_shade_share", "least share of 11–15 h in shade at a drawn burrow",
       "of 1", 2, Better::more,
       "Shade in the hot hours at the mouth of the sunniest burrow; 0 for one that is no place for "
       "a burrow."},
      {"burrows.sunning_hours", "hours of sun on the sunniest sunning rock", "h", 1, Better::more,
       "Direct sun of the design day on the top of the sunniest of the drawn sunning rocks."}};
  return rows;
}

}  // namespace hummock::burrows
