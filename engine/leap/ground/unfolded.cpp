#include "engine/leap/ground/unfolded.h"

namespace hummock::leap {

Unfolded::Unfolded(const std::vector<PatchPtr>& patches) : patches_(patches) {
  seen_.reserve(patches.size());
  for (const PatchPtr& p : patches)
    seen_.push_back({p->tree.data(), p->pieces.data(), static_cast<int>(p->tree.size()),
                     static_cast<int>(p->pieces.size()), nullptr});
}

Unfolded::Own& Unfolded::own(int patch) {
  const auto [it, fresh] = own_.try_emplace(patch);
  if (fresh) {
    it->second.tree = patches_[static_cast<std::size_t>(patch)]->tree;
    Seen& seen = seen_[static_cast<std::size_t>(patch)];
    seen.nodes = it->second.tree.data();
    seen.own = &it->second;
  }
  return it->second;
}

PatchPtr Unfolded::block(int patch, int n) const {
  const auto known = blocks_.find({patch, n});
  return known != blocks_.end() ? known->second.lock() : nullptr;
}

int Unfolded::children(int patch, int n) {
  if (!node(patch, n).folded) return node(patch, n).left;
  Own& mine = own(patch);
  const Seen& seen = seen_[static_cast<std::size_t>(patch)];
  TreeNode& leaf = mine.tree[static_cast<std::size_t>(n)];  // what is unfolded is folded no more
  const PatchPtr laid = laid_leaf(*patches_[static_cast<std::size_t>(patch)], leaf);
  blocks_[{patch, n}] = laid;
  const Patch& below = *laid;
  const int first_piece = seen.piece_count + mine.pieces.size();
  const int first_node = seen.node_count + mine.nodes.size() - 1;  // its root takes n's place
  for (const SurfacePiece& piece : below.pieces) mine.pieces.push_back(piece);
  for (std::size_t k = 0; k < below.tree.size(); ++k) {
    TreeNode node = below.tree[k];
    node.first += first_piece;
    if (node.left >= 0) node.left += first_node;
    if (k == 0)
      leaf = node;
    else
      mine.nodes.push_back(node);
  }
  return leaf.left;
}

Patch unfolded_leaf(const Patch& patch, const TreeNode& leaf) {
  Patch out;
  for (int k = leaf.first; k < leaf.first + leaf.count; ++k)
    patch.folds->unfold(patch.pieces[static_cast<std::size_t>(k)].fold, patch.part_of_folds,
                        out.pieces);
  build_tree(out);
  return out;
}

PatchPtr laid_leaf(const Patch& patch, const TreeNode& leaf) {
  if (leaf.count != 1) return std::make_shared<const Patch>(unfolded_leaf(patch, leaf));
  const SurfacePiece& only = patch.pieces[static_cast<std::size_t>(leaf.first)];
  return patch.folds->laid(only.fold, patch.part_of_folds);
}

std::vector<SurfacePiece> all_pieces(const Patch& patch) {
  if (!patch.folds) return patch.pieces;
  std::vector<SurfacePiece> out;
  for (const SurfacePiece& p : patch.pieces) patch.folds->unfold(p.fold, patch.part_of_folds, out);
  return out;
}

PatchPtr unfolded(const PatchPtr& patch) {
  if (!patch->folds) return patch;
  auto out = std::make_shared<Patch>(*patch);
  out->pieces = all_pieces(*patch);
  out->folds.reset();
  build_tree(*out);
  return out;
}

}  // namespace hummock::leap
