#include "engine/leap/patch.h"

#include <algorithm>
#include <cassert>

namespace hummock::leap {

using geom::Box3;
using geom::Vec3;

namespace {

constexpr int kLeaf = 4;

double along(Vec3 v, int axis) {
  return axis == 0 ? v.x : axis == 1 ? v.y : v.z;
}

int longest_side(const Box3& box) {
  const Vec3 size = box.hi - box.lo;
  if (size.x >= size.y && size.x >= size.z) return 0;
  return size.y >= size.z ? 1 : 2;
}

void take_in(TreeNode& node, const Spot& spot) {
  node.box.add(spot.cell);
  node.hook = node.hook || spot.hook;
  node.stand = node.stand || !spot.cling;
}

}  // namespace

void build_tree(Patch& patch) {
  const int n = static_cast<int>(patch.spots.size());
  assert(n > 0);
  std::vector<int> order(patch.spots.size());
  for (int i = 0; i < n; ++i) order[static_cast<std::size_t>(i)] = i;
  patch.tree.assign(1, {});
  patch.tree[0].count = n;
  for (std::size_t at = 0; at < patch.tree.size(); ++at) {
    TreeNode node = patch.tree[at];
    Box3 centres;
    for (int k = node.first; k < node.first + node.count; ++k) {
      const Spot& spot = patch.spots[static_cast<std::size_t>(order[static_cast<std::size_t>(k)])];
      take_in(node, spot);
      centres.add(spot.cell.centre());
    }
    if (node.count > kLeaf) {
      const int axis = longest_side(centres);
      const auto begin = order.begin() + node.first;
      const auto middle = begin + node.count / 2;
      std::nth_element(begin, middle, begin + node.count, [&](int a, int b) {
        const double ca = along(patch.spots[static_cast<std::size_t>(a)].cell.centre(), axis);
        const double cb = along(patch.spots[static_cast<std::size_t>(b)].cell.centre(), axis);
        return ca < cb || (ca == cb && a < b);
      });
      node.left = static_cast<int>(patch.tree.size());
      TreeNode child;
      child.first = node.first;
      child.count = node.count / 2;
      patch.tree.push_back(child);
      child.first = node.first + node.count / 2;
      child.count = node.count - node.count / 2;
      patch.tree.push_back(child);
    }
    patch.tree[at] = node;
  }
  std::vector<Spot> sorted;
  sorted.reserve(patch.spots.size());
  for (const int i : order) sorted.push_back(patch.spots[static_cast<std::size_t>(i)]);
  patch.spots = std::move(sorted);
}

PatchTree build_patch_tree(const std::vector<PatchPtr>& patches, const std::vector<int>& wanted) {
  PatchTree tree;
  tree.leaf_of.assign(patches.size(), -1);
  if (wanted.empty()) return tree;
  std::vector<int> order = wanted;
  struct Range {
    int first, count;
  };
  std::vector<Range> ranges{{0, static_cast<int>(order.size())}};
  tree.nodes.emplace_back();
  for (std::size_t at = 0; at < tree.nodes.size(); ++at) {
    const Range range = ranges[at];
    PatchTree::Node node = tree.nodes[at];
    node.count = range.count;
    Box3 centres;
    for (int k = range.first; k < range.first + range.count; ++k) {
      const TreeNode& root =
          patches[static_cast<std::size_t>(order[static_cast<std::size_t>(k)])]->tree[0];
      node.box.add(root.box);
      node.hook = node.hook || root.hook;
      centres.add(root.box.centre());
    }
    if (range.count == 1) {
      node.patch = order[static_cast<std::size_t>(range.first)];
      tree.leaf_of[static_cast<std::size_t>(node.patch)] = static_cast<int>(at);
    } else {
      const int axis = longest_side(centres);
      const auto begin = order.begin() + range.first;
      std::nth_element(begin, begin + range.count / 2, begin + range.count, [&](int a, int b) {
        const double ca = along(patches[static_cast<std::size_t>(a)]->tree[0].box.centre(), axis);
        const double cb = along(patches[static_cast<std::size_t>(b)]->tree[0].box.centre(), axis);
        return ca < cb || (ca == cb && a < b);
      });
      node.left = static_cast<int>(tree.nodes.size());
      PatchTree::Node child;
      child.parent = static_cast<int>(at);
      tree.nodes.push_back(child);
      tree.nodes.push_back(child);
      ranges.push_back({range.first, range.count / 2});
      ranges.push_back({range.first + range.count / 2, range.count - range.count / 2});
    }
    tree.nodes[at] = node;
  }
  return tree;
}

}  // namespace hummock::leap
