#include "engine/openings/openings.h"

#include <algorithm>

#include "engine/openings/entrapment_gaps.h"
#include "engine/openings/foot_gaps.h"
#include "engine/openings/holes.h"
#include "engine/openings/joined_gaps.h"
#include "engine/openings/roof_gaps.h"

namespace hummock::openings {

Result analyse(const Model& model) {
  Result result;
  add_meshes(model, result.list);
  add_foot_gaps(model, result.list);
  add_gate_sides(model, result.list);
  add_joints(model, result.list);
  add_roof_gaps(model, result.list);
  add_drains(model, result.list);
  add_joined_gaps(model, result.list);
  add_vents(model, result.list);
  add_entrapment_gaps(model, result.list);
  std::stable_sort(result.list.begin(), result.list.end(),
                   [](const Opening& p, const Opening& q) { return p.ball_m > q.ball_m; });
  result.met = true;
  for (const Opening& o : result.list) {
    if (!o.leads_out) {
      ++result.entrapment_gaps;
      continue;
    }
    if (!o.note.empty()) continue;
    result.largest_m = std::max(result.largest_m, o.ball_m);
    if (o.passes) result.met = false;
  }
  return result;
}

}  // namespace hummock::openings
