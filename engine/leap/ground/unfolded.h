// Patches as a search sees them: what is folded (patch.h) is unfolded leaf by leaf, where the
// search comes to it. What is unfolded is this search's own.
#pragma once

#include <map>
#include <vector>

#include "engine/leap/places/patch.h"

namespace hummock::leap {

class Unfolded {
 public:
  // Keeps a reference.
  explicit Unfolded(const std::vector<PatchPtr>& patches);

  // References hold until the next `children`.
  const TreeNode& node(int patch, int n) const {
    return seen_[static_cast<std::size_t>(patch)].nodes[n];
  }
  const SurfacePiece& piece(int patch, int k) const {
    return seen_[static_cast<std::size_t>(patch)].pieces[k];
  }
  static bool splits(const TreeNode& node) { return node.left >= 0 || node.folded; }
  // The first of its two children; −1: the node, unfolded now, is a leaf.
  int children(int patch, int n);

 private:
  struct Seen {
    const TreeNode* nodes;
    const SurfacePiece* pieces;
  };
  struct Own {
    std::vector<TreeNode> nodes;
    std::vector<SurfacePiece> pieces;
  };
  Own& own(int patch);

  const std::vector<PatchPtr>& patches_;
  std::vector<Seen> seen_;
  std::map<int, Own> own_;
};

// The pieces below a leaf, laid, under a tree of their own.
Patch unfolded_leaf(const Patch& patch, const TreeNode& leaf);
// All pieces, laid: as they are where nothing is folded.
std::vector<SurfacePiece> all_pieces(const Patch& patch);
// The same patch without folds.
PatchPtr unfolded(const PatchPtr& patch);

}  // namespace hummock::leap
