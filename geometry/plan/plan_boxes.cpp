#include "geometry/plan/plan_boxes.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace hummock::geom {
namespace {

bool meet(const Box2& a, const Box2& b) {
  return a.lo.x <= b.hi.x && b.lo.x <= a.hi.x && a.lo.y <= b.hi.y && b.lo.y <= a.hi.y;
}

}  // namespace

PlanBoxes::PlanBoxes(std::vector<Box2> boxes) : boxes_(std::move(boxes)) {
  order_.resize(boxes_.size());
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  if (!boxes_.empty()) build(0, boxes_.size());
}

// Halves along the longer side of the boxes' middles.
void PlanBoxes::build(std::size_t first, std::size_t last) {
  const std::size_t self = nodes_.size();
  nodes_.push_back({{}, first, last, 0});
  Box2 middles;
  for (std::size_t k = first; k < last; ++k) {
    const Box2& b = boxes_[order_[k]];
    nodes_[self].box.add(b.lo);
    nodes_[self].box.add(b.hi);
    middles.add(b.lo + b.hi);
  }
  if (last - first <= kLeaf) return;
  const Vec2 size = middles.hi - middles.lo;
  const auto middle = [&](std::size_t id) {
    return size.x >= size.y ? boxes_[id].lo.x + boxes_[id].hi.x : boxes_[id].lo.y + boxes_[id].hi.y;
  };
  const std::size_t half = (first + last) / 2;
  const auto begin = order_.begin();
  std::nth_element(begin + static_cast<long>(first), begin + static_cast<long>(half),
                   begin + static_cast<long>(last), [&](std::size_t a, std::size_t b) {
                     return std::pair(middle(a), a) < std::pair(middle(b), b);
                   });
  build(first, half);
  nodes_[self].second = nodes_.size();
  build(half, last);
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
      if (meet(boxes_[order_[k]], box)) out.push_back(order_[k]);
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace hummock::geom
