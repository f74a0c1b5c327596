#include "engine/leap/search/touch_leap.h"

#include <algorithm>
#include <limits>
#include <memory>

#include "engine/leap/ground/unfolded.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec3;

TouchLeap::TouchLeap(const std::vector<PatchPtr>& patches, const SearchResult& reached,
                     const LinkRules& rules)
    : patches_(patches), reached_(reached), rules_(rules) {
  std::vector<int> wanted;
  for (std::size_t p = 0; p < patches.size(); ++p) {
    if (reached.patches[p].is() && patches[p]->kind != PatchKind::exit) {
      wanted.push_back(static_cast<int>(p));
    }
  }
  for (const int p : wanted) {
    const Patch& patch = *patches[static_cast<std::size_t>(p)];
    if (patch.folds) laid_.emplace(p, patch.tree.size());
  }
  tree_ = build_patch_tree(patches, wanted);
  least_.assign(tree_.nodes.size(), 1e300);
  for (std::size_t n = tree_.nodes.size(); n-- > 0;) {
    const PatchTree::Node& node = tree_.nodes[n];
    if (node.patch >= 0) {
      least_[n] = reached.patches[static_cast<std::size_t>(node.patch)].required_leap;
    } else {
      const auto left = static_cast<std::size_t>(node.left);
      least_[n] = std::min(least_[left], least_[left + 1]);
    }
  }
}

TouchLeap::~TouchLeap() {
  for (auto& [patch, nodes] : laid_) {
    for (auto& node : nodes) delete node.load();
  }
}

// Two threads may lay the same pieces: one of them is kept.
const Patch& TouchLeap::below(int patch, int leaf) const {
  std::atomic<const Patch*>& place = laid_.at(patch)[static_cast<std::size_t>(leaf)];
  const Patch* known = place.load();
  if (known != nullptr) return *known;
  const Patch& of = *patches_[static_cast<std::size_t>(patch)];
  auto fresh =
      std::make_unique<const Patch>(unfolded_leaf(of, of.tree[static_cast<std::size_t>(leaf)]));
  if (place.compare_exchange_strong(known, fresh.get())) known = fresh.release();
  return *known;
}

double TouchLeap::at(Vec3 q) const {
  double best = std::numeric_limits<double>::infinity();
  if (tree_.nodes.empty()) return best;
  Box3 point;
  point.add(q);
  struct Item {
    int node;
    int patch;  // −1: node of the tree over patches
    double bound;
    const Patch* in = nullptr;  // whose node it is
  };
  const auto upper_bound = [&](int n) {
    const auto k = static_cast<std::size_t>(n);
    return std::max(least_[k], link_bound(rules_, tree_.nodes[k].box, true, point, false));
  };
  // An upper node may hold waters and grounds: its bound leaves the share out.
  const auto from_patch = [&](int patch, double effort) {
    const double share = patches_[static_cast<std::size_t>(patch)]->takeoff;
    return effort <= 0.0 || share >= 1.0 ? effort : effort / std::max(share, 1e-12);
  };
  const auto lower_bound = [&](int patch, const Patch* in, int n) {
    const TreeNode& node = in->tree[static_cast<std::size_t>(n)];
    return std::max(reached_.patches[static_cast<std::size_t>(patch)].required_leap,
                    from_patch(patch, link_bound(rules_, node.box, node.stand, point, false)));
  };
  std::vector<Item> open{{0, -1, upper_bound(0)}};
  const auto push_two = [&](Item a, Item b) {
    if (a.bound < b.bound) std::swap(a, b);
    open.push_back(a);
    open.push_back(b);
  };
  while (!open.empty()) {
    const Item item = open.back();
    open.pop_back();
    if (!(item.bound < best) || item.bound > rules_.limit) continue;
    if (item.patch < 0) {
      const PatchTree::Node& node = tree_.nodes[static_cast<std::size_t>(item.node)];
      if (node.patch >= 0) {
        const Patch* in = patches_[static_cast<std::size_t>(node.patch)].get();
        open.push_back({0, node.patch, lower_bound(node.patch, in, 0), in});
      } else {
        push_two({node.left, -1, upper_bound(node.left)},
                 {node.left + 1, -1, upper_bound(node.left + 1)});
      }
      continue;
    }
    const Patch& patch = *item.in;
    const TreeNode& node = patch.tree[static_cast<std::size_t>(item.node)];
    if (node.left >= 0) {
      push_two(
          {node.left, item.patch, lower_bound(item.patch, item.in, node.left), item.in},
          {node.left + 1, item.patch, lower_bound(item.patch, item.in, node.left + 1), item.in});
      continue;
    }
    if (node.folded) {
      const Patch* in = &below(item.patch, item.node);
      open.push_back({0, item.patch, lower_bound(item.patch, in, 0), in});
      continue;
    }
    for (int k = node.first; k < node.first + node.count; ++k) {
      const SurfacePiece& s = patch.pieces[static_cast<std::size_t>(k)];
      const double v =
          std::max(reached_.patches[static_cast<std::size_t>(item.patch)].required_leap,
                   from_patch(item.patch, link_bound(rules_, s.cell, !s.cling, point, false)));
      best = std::min(best, v);
    }
  }
  return best <= rules_.limit ? best : std::numeric_limits<double>::infinity();
}

}  // namespace hummock::leap
