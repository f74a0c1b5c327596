// Shade in a reviewer's words.
#include <fmt/format.h>

#include "engine/shade/shade_json.h"

namespace hummock::shade {

void add_findings(const Day&, const Model& model, FindingList& list) {
  if (!model.site.place || !model.site.place->horizon.empty() || model.beyond) return;
  list.push_back({Severity::look,
                  "shade",
                  "",
                  fmt::format("nothing tells of hills beyond the margin of {:g} m round the yard: "
                              "none is taken to stand before the sun",
                              model.site.ground.margin),
                  "give place.horizon, or a raster that reaches farther",
                  {}});
}

}  // namespace hummock::shade
