// Patches as a search sees them: what is folded (patch.h) is unfolded leaf by leaf, where the
// search comes to it. What is unfolded is this search's own.
#pragma once

#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "engine/leap/places/patch.h"

namespace hummock::leap {

// A list that grows by pages and never moves what it holds.
template <class T>
class Paged {
 public:
  static constexpr int kBits = 9;  // layout: 512 of them to a page
  const T& operator[](int k) const {
    return pages_[static_cast<std::size_t>(k >> kBits)][k & ((1 << kBits) - 1)];
  }
  void push_back(const T& value) {
    if ((size_ & ((1 << kBits) - 1)) == 0)
      pages_.push_back(std::make_unique<T[]>(std::size_t{1} << kBits));
    pages_.back()[static_cast<std::size_t>(size_++ & ((1 << kBits) - 1))] = value;
  }
  int size() const { return size_; }

 private:
  std::vector<std::unique_ptr<T[]>> pages_;
  int size_ = 0;
};

class Unfolded {
 public:
  // Keeps a reference.
  explicit Unfolded(const std::vector<PatchPtr>& patches);

  // References hold as long as this does, but for a folded leaf's, until it is unfolded.
  const TreeNode& node(int patch, int n) const {
    const Seen& s = seen_[static_cast<std::size_t>(patch)];
    return n < s.node_count ? s.nodes[n] : s.own->nodes[n - s.node_count];
  }
  const SurfacePiece& piece(int patch, int k) const {
    const Seen& s = seen_[static_cast<std::size_t>(patch)];
    return k < s.piece_count ? s.pieces[k] : s.own->pieces[k - s.piece_count];
  }
  static bool splits(const TreeNode& node) { return node.left >= 0 || node.folded; }
  // The first of its two children; −1: the node, unfolded now, is a leaf.
  int children(int patch, int n);
  // What a folded leaf of the patch's own tree was laid as, when it was unfolded; nothing where
  // that is kept nowhere.
  PatchPtr block(int patch, int n) const;
  bool is_block(int patch, int n) const {
    const auto& tree = patches_[static_cast<std::size_t>(patch)]->tree;
    return static_cast<std::size_t>(n) < tree.size() && tree[static_cast<std::size_t>(n)].folded;
  }

 private:
  struct Own {
    std::vector<TreeNode> tree;  // the patch's, leaves unfolded in their place
    Paged<TreeNode> nodes;       // what lies below those leaves, numbered on from the tree
    Paged<SurfacePiece> pieces;  // numbered on from the patch's
  };
  // Of a patch, without what is unfolded.
  struct Seen {
    const TreeNode* nodes;
    const SurfacePiece* pieces;
    int node_count, piece_count;
    const Own* own;
  };
  Own& own(int patch);
  using Leaf = std::pair<int, int>;  // patch and node

  const std::vector<PatchPtr>& patches_;
  std::vector<Seen> seen_;
  std::map<int, Own> own_;
  std::map<Leaf, std::weak_ptr<const Patch>> blocks_;
};

// The pieces below a leaf, laid, under a tree of their own.
Patch unfolded_leaf(const Patch& patch, const TreeNode& leaf);
// The same, from what was laid before where it is kept.
PatchPtr laid_leaf(const Patch& patch, const TreeNode& leaf);
// All pieces, laid: as they are where nothing is folded.
std::vector<SurfacePiece> all_pieces(const Patch& patch);
// The same patch without folds.
PatchPtr unfolded(const PatchPtr& patch);

}  // namespace hummock::leap
