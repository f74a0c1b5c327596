#include "geometry/plan/plan_boxes.h"

#include <algorithm>
#include <utility>

namespace hummock::geom {
namespace {

bool meet(const Box2& a, const Box2& b) {
  return a.lo.x <= b.hi.x && b.lo.x <= a.hi.x && a.lo.y <= b.hi.y && b.lo.y <= a.hi.y;
}

}  // namespace

PlanBoxes::PlanBoxes(std::vector<Box2> boxes) : boxes_(std::move(boxes)) {
  std::vector<Placed> placed;
  placed.reserve(boxes_.size());
  for (std::size_t k = 0; k < boxes_.size(); ++k)
    placed.push_back({boxes_[k], boxes_[k].lo + boxes_[k].hi, k});
  if (placed.empty()) return;
  nodes_.reserve(placed.size());
  build(placed, 0, placed.size());
  order_.reserve(placed.size());
  for (std::size_t k = 0; k < placed.size(); ++k) {
    boxes_[k] = placed[k].box;
    order_.push_back(placed[k].id);
  }
}

// Halves along the longer side of the boxes' middles. Whichever way equal middles fall, `meeting`
// tells the same.
void PlanBoxes::build(std::vector<Placed>& placed, std::size_t first, std::size_t last) {
  const std::size_t self = nodes_.size();
  Box2 all, middles;
  for (std::size_t k = first; k < last; ++k) {
    all.add(placed[k].box.lo);
    all.add(placed[k].box.hi);
    middles.add(placed[k].middle);
  }
  nodes_.push_back({all, first, last, 0});
  if (last - first <= kLeaf) return;
  const Vec2 size = middles.hi - middles.lo;
  const std::size_t half = (first + last) / 2;
  const auto at = [&](std::size_t k) { return placed.begin() + static_cast<long>(k); };
  if (size.x >= size.y)
    std::nth_element(at(first), at(half), at(last),
                     [](const Placed& a, const Placed& b) { return a.middle.x < b.middle.x; });
  else
    std::nth_element(at(first), at(half), at(last),
                     [](const Placed& a, const Placed& b) { return a.middle.y < b.middle.y; });
  build(placed, first, half);
  nodes_[self].second = nodes_.size();
  build(placed, half, last);
}

std::vector<std::size_t> PlanBoxes::meeting(const Box2& box) const {
  std::vector<std::size_t> out;
  std::vector<std::size_t> open;
  if (!nodes_.empty()) open.push_back(0);
  while (!open.empty()) {
    const std::size_t at = open.back();
    open.pop_back();
    const Node& n = nodes_[at];
    if (!meet(n.box, box)) continue;
    if (n.second != 0) {
      open.push_back(n.second);
      open.push_back(at + 1);
      continue;
    }
    for (std::size_t k = n.first; k < n.last; ++k)
      if (meet(boxes_[k], box)) out.push_back(order_[k]);
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace hummock::geom
