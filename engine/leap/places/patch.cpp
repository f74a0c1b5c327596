#include "engine/leap/places/patch.h"

#include <algorithm>
#include <cassert>
#include <utility>

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

void take_in(TreeNode& node, const SurfacePiece& piece) {
  node.box.add(piece.cell);
  node.hook = node.hook || piece.hook;
  node.stand = node.stand || !piece.cling;
  node.folded = piece.fold >= 0;
}

// What the sorting moves: small, and side by side in memory.
struct Item {
  double c[3];  // the cell's centre
  int piece;
};

// pieces[k] becomes what was pieces[items[k].piece]: cycle by cycle, without a second array. The
// items are used up.
void put_in_order(std::vector<Item>& items, std::vector<SurfacePiece>& pieces) {
  for (std::size_t k = 0; k < items.size(); ++k) {
    if (items[k].piece == static_cast<int>(k)) continue;
    const SurfacePiece first = pieces[k];
    std::size_t to = k;
    while (true) {
      const auto from = static_cast<std::size_t>(items[to].piece);
      items[to].piece = static_cast<int>(to);
      if (from == k) break;
      pieces[to] = pieces[from];
      to = from;
    }
    pieces[to] = first;
  }
}

}  // namespace

void build_tree(Patch& patch) {
  const int n = static_cast<int>(patch.pieces.size());
  assert(n > 0);
  std::vector<Item> items(patch.pieces.size());
  for (int i = 0; i < n; ++i) {
    const Vec3 c = patch.pieces[static_cast<std::size_t>(i)].cell.centre();
    items[static_cast<std::size_t>(i)] = {{c.x, c.y, c.z}, i};
  }
  patch.tree.assign(1, {});
  patch.tree.reserve(static_cast<std::size_t>(n) + 1);
  patch.tree[0].count = n;
  const int leaf = patch.folds ? 1 : kLeaf;
  for (std::size_t at = 0; at < patch.tree.size(); ++at) {
    TreeNode& node = patch.tree[at];
    if (node.count <= leaf) continue;
    const auto begin = items.begin() + node.first;
    Box3 centres;
    for (auto it = begin; it != begin + node.count; ++it) {
      centres.add(Vec3{it->c[0], it->c[1], it->c[2]});
    }
    const int axis = longest_side(centres);
    std::nth_element(
        begin, begin + node.count / 2, begin + node.count, [axis](const Item& a, const Item& b) {
          return a.c[axis] < b.c[axis] || (a.c[axis] == b.c[axis] && a.piece < b.piece);
        });
    node.left = static_cast<int>(patch.tree.size());
    TreeNode left;
    left.first = node.first;
    left.count = node.count / 2;
    TreeNode right;
    right.first = node.first + left.count;
    right.count = node.count - left.count;
    patch.tree.push_back(left);  // `node` may dangle from here on
    patch.tree.push_back(right);
  }
  put_in_order(items, patch.pieces);
  for (std::size_t at = patch.tree.size(); at-- > 0;) {
    TreeNode& node = patch.tree[at];
    if (node.left < 0) {
      for (int k = node.first; k < node.first + node.count; ++k) {
        take_in(node, patch.pieces[static_cast<std::size_t>(k)]);
      }
    } else {
      for (const int child : {node.left, node.left + 1}) {
        const TreeNode& below = patch.tree[static_cast<std::size_t>(child)];
        node.box.add(below.box);
        node.hook = node.hook || below.hook;
        node.stand = node.stand || below.stand;
      }
    }
  }
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
