#include "engine/shade/beam/box_tree.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "engine/shade/beam/may_shade.h"

namespace hummock::shade {

BoxTree::BoxTree(std::vector<geom::Box3> boxes) : boxes_(std::move(boxes)) {
  order_.resize(boxes_.size());
  std::iota(order_.begin(), order_.end(), 0);
  if (!boxes_.empty()) build(0, static_cast<int>(boxes_.size()));
}

// Halves along the longest side of the boxes' middles.
void BoxTree::build(int first, int last) {
  const std::size_t self = nodes_.size();
  nodes_.push_back({{}, first, last, 0});
  geom::Box3 middles;
  for (int k = first; k < last; ++k) {
    const geom::Box3& b = boxes_[static_cast<std::size_t>(order_[static_cast<std::size_t>(k)])];
    nodes_[self].box.add(b);
    middles.add((b.lo + b.hi) * 0.5);
  }
  if (last - first <= kLeaf) return;
  const Vec3 size = middles.hi - middles.lo;
  const auto middle = [&](int id) {
    const geom::Box3& b = boxes_[static_cast<std::size_t>(id)];
    return size.x >= size.y ? b.lo.x + b.hi.x : b.lo.y + b.hi.y;
  };
  const int half = (first + last) / 2;
  std::sort(order_.begin() + first, order_.begin() + last,
            [&](int a, int b) { return middle(a) != middle(b) ? middle(a) < middle(b) : a < b; });
  build(first, half);
  nodes_[self].second = static_cast<int>(nodes_.size());
  build(half, last);
}

std::vector<int> BoxTree::near(const geom::Box3& nodes, const RunRange& run, Vec2 along) const {
  std::vector<int> out;
  near(nodes, run, along, out);
  return out;
}

void BoxTree::near(const geom::Box3& nodes, const RunRange& run, Vec2 along,
                   std::vector<int>& out) const {
  out.clear();
  if (nodes_.empty()) return;
  const MayShade may_shade(nodes, run, along);
  constexpr std::size_t kDeepest = 64;
  std::array<int, kDeepest> open{};
  std::size_t count = 1;
  while (count > 0) {
    const int at = open[--count];
    const Node& n = nodes_[static_cast<std::size_t>(at)];
    if (!may_shade(n.box)) continue;
    if (n.last - n.first == 1) {  // its box is the node's
      out.push_back(order_[static_cast<std::size_t>(n.first)]);
      continue;
    }
    if (n.second != 0) {
      open[count++] = n.second;
      open[count++] = at + 1;
      continue;
    }
    for (int k = n.first; k < n.last; ++k) {
      const int id = order_[static_cast<std::size_t>(k)];
      if (may_shade(boxes_[static_cast<std::size_t>(id)])) out.push_back(id);
    }
  }
  std::sort(out.begin(), out.end());
}

std::vector<int> BoxTree::near(const geom::Box3& box, std::span<const SunRay> suns) const {
  RunRange run{suns.front().run, suns.front().run};
  for (const SunRay& s : suns) {
    run.lo = {std::min(run.lo.x, s.run.x), std::min(run.lo.y, s.run.y)};
    run.hi = {std::max(run.hi.x, s.run.x), std::max(run.hi.y, s.run.y)};
  }
  return near(box, run, unit(suns.front().run));
}

}  // namespace hummock::shade
