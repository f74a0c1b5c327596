#include <algorithm>

#include "engine/leap/rows/leap_json.h"

namespace hummock::leap {

std::optional<LookAt> look_at(const Result& result, const Model&) {
  if (result.route.empty()) return std::nullopt;
  geom::Box3 box;
  for (const Step& step : result.route) {
    if (step.kind == StepKind::walk) continue;
    box.add(step.from);
    box.add(step.to);
  }
  if (box.empty()) box.add(result.route.back().to);
  return LookAt{box.centre(), std::max(1.6, geom::distance(box.lo, box.hi))};
}

}  // namespace hummock::leap
