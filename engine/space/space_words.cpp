// Room in a reviewer's words.
#include "engine/space/space_json.h"

namespace hummock::space {

void add_findings(const Result& result, const Model& model, FindingList& list) {
  constexpr double kWorthSaying = 1.0;  // m²; common practice, no source
  if (result.out_of_reach_m2 < kWorthSaying) return;
  const auto& start = model.site.leap_start;
  const std::string from = start ? "its start at " + place_words(model, *start)
                                 : "the largest ground, where it starts without a [leap] start,";
  list.push_back({Severity::look,
                  "space",
                  "",
                  plain_figure(result.out_of_reach_m2) +
                      " m² of ground it could live on count for nothing: from " + from +
                      " it does not come there and back, walking and leaping",
                  "give it a way there and back, or another start ([leap] start)",
                  {}});
}

}  // namespace hummock::space
