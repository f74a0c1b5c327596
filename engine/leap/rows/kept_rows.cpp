#include "engine/leap/rows/kept_rows.h"

#include <algorithm>

namespace hummock::leap {

using geom::Box3;

namespace {

bool boxes_meet(const Box3& a, const Box3& b) {
  return !a.empty() && !b.empty() && a.lo.x <= b.hi.x && b.lo.x <= a.hi.x && a.lo.y <= b.hi.y &&
         b.lo.y <= a.hi.y && a.lo.z <= b.hi.z && b.lo.z <= a.hi.z;
}

std::vector<PatchPtr> ways_among(const std::vector<PatchPtr>& patches) {
  std::vector<PatchPtr> ways;
  std::copy_if(patches.begin(), patches.end(), std::back_inserter(ways),
               [](const PatchPtr& p) { return is_exit(*p); });
  return ways;
}

bool same_spots(const std::vector<PatchPtr>& a, const std::vector<PatchPtr>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    if (a[k]->pieces.size() != b[k]->pieces.size() || a[k]->exit != b[k]->exit) return false;
    for (std::size_t i = 0; i < a[k]->pieces.size(); ++i) {
      const SurfacePiece& p = a[k]->pieces[i];
      const SurfacePiece& q = b[k]->pieces[i];
      if (!(p.at == q.at && p.cell.lo == q.cell.lo && p.cell.hi == q.cell.hi)) return false;
    }
  }
  return true;
}

}  // namespace

bool same_ways(const std::vector<PatchPtr>& before, const std::vector<PatchPtr>& after) {
  return same_spots(ways_among(after), ways_among(before));
}

std::vector<char> rows_to_redo(const std::vector<Furniture>& things,
                               const std::vector<ExitCost>& costs,
                               const std::vector<char>& part_changed,
                               const std::vector<Box3>& changed, bool same_ways_out) {
  std::vector<char> redo(things.size(), same_ways_out ? 0 : 1);
  for (std::size_t t = 0; t < things.size(); ++t) {
    for (const int part : things[t].parts) {
      if (part_changed[static_cast<std::size_t>(part)] != 0) redo[t] = 1;
    }
    for (const Box3& c : changed) {
      if (boxes_meet(costs[t].touched, c)) redo[t] = 1;
    }
  }
  return redo;
}

}  // namespace hummock::leap
