#include "engine/leap/search/look_ahead.h"

#include <algorithm>

namespace hummock::leap {

bool LookAhead::asked_of(const Entry& e) const {
  if (!quest_.look_ahead || !places_.is_block(e.pa, e.a)) return false;
  const Patch& to = *patches_[static_cast<std::size_t>(e.pb)];
  const bool pocket = quest_.leave_pockets && !is_exit(to);
  return !pocket && !to.folds && !walls_.stand_between(e.pa, e.pb);
}

bool LookAhead::leaves_out(const Entry& e, double from) {
  if (!asked_of(e)) return false;
  compared_.insert({e.pa, e.pb});
  const bool late = comes_too_late(e, from);
  if (late) ++left_out_;
  return late;
}

bool LookAhead::holds() const {
  return left_out_ == 0 ||
         std::none_of(compared_.begin(), compared_.end(), [this](const std::pair<int, int>& p) {
           return walls_.stand_between(p.first, p.second);
         });
}

bool LookAhead::comes_too_late(const Entry& e, double from) {
  Group group{e, std::max(from, e.key)};
  const LateBlocks::Way way = way_of(e);
  LateBlocks* told = way.block ? quest_.known->late_blocks() : nullptr;
  if (told != nullptr && told->needs(way) > kRounded * least_free(group)) return true;
  look(group, e.a, e.b);
  if (told != nullptr && !group.kept) told->keep(way, group.needs);
  return !group.kept;
}

// Without a block where nothing is known from one search to the next.
LateBlocks::Way LookAhead::way_of(const Entry& e) const {
  if (quest_.known == nullptr || quest_.known->late_blocks() == nullptr) return {};
  return {places_.block(e.pa, e.a), patches_[static_cast<std::size_t>(e.pa)]->takeoff,
          quest_.known->number(e.pb), e.b};
}

double LookAhead::bound(const Group& group, int a, int b) const {
  const TreeNode& from = places_.node(group.e.pa, a);
  const TreeNode& to = places_.node(group.e.pb, b);
  return from_patch(group, link_bound(rules_, from.box, from.stand, to.box, to.hook));
}

double LookAhead::from_patch(const Group& group, double effort) const {
  return effort_from(*patches_[static_cast<std::size_t>(group.e.pa)], effort);
}

// Once the block is kept, only what needs less than the best is worth a look.
bool LookAhead::late(Group& group, double bound) const {
  const double least = least_free_[static_cast<std::size_t>(group.e.pb)];
  const bool late =
      bound > rules_.limit || (group.kept ? bound >= least : bound > kRounded * least);
  if (late) group.needs = std::min(group.needs, bound);
  return late;
}

void LookAhead::look(Group& group, int a, int b) {
  const TreeNode& from = places_.node(group.e.pa, a);
  const TreeNode& to = places_.node(group.e.pb, b);
  if (from.left < 0 && to.left < 0) return look_at_spots(group, from, to);
  const bool split_a = to.left < 0 || (from.left >= 0 && diagonal2(from.box) >= diagonal2(to.box));
  const int left = split_a ? from.left : to.left;
  struct Part {
    int a, b;
    double bound;
  };
  Part parts[2];
  for (int k = 0; k < 2; ++k) {
    parts[k] = {split_a ? left + k : a, split_a ? b : left + k, 0.0};
    parts[k].bound = bound(group, parts[k].a, parts[k].b);
  }
  if (parts[1].bound < parts[0].bound) std::swap(parts[0], parts[1]);
  for (const Part& part : parts)
    if (!group.done && !late(group, part.bound)) look(group, part.a, part.b);
}

// Spot by node first: most are late by that.
void LookAhead::look_at_spots(Group& group, const TreeNode& a, const TreeNode& b) {
  for (int i = a.first; i < a.first + a.count; ++i) {
    const SurfacePiece& p = places_.piece(group.e.pa, i);
    if (late(group, from_patch(group, link_bound(rules_, p.cell, !p.cling, b.box, b.hook))))
      continue;
    for (int j = b.first; j < b.first + b.count && !group.done; ++j)
      look_at_pair(group, p, places_.piece(group.e.pb, j));
  }
}

// A limb or a step is not looked into, nor what is blocked: steeper flights may be free.
void LookAhead::look_at_pair(Group& group, const SurfacePiece& p, const SurfacePiece& q) {
  if (no_footing(p, q)) return;
  const bool limb = within_reach(rules_, p.cell, q.cell, q.hook);
  const double leap = from_patch(group, leap_bound(rules_, p.cell, !p.cling, q.cell, q.hook));
  if (!limb && late(group, leap)) return;
  group.kept = true;
  double& least = least_free(group);
  const double key = std::max(group.from, leap);
  group.done = limb || leap <= 0.0 || key >= least || !is_free(p, q);
  if (!group.done) least = key;
}

bool LookAhead::is_free(const SurfacePiece& p, const SurfacePiece& q) const {
  if (!rules_.blocked) return true;
  return arc_free(scene_, least_arc(rules_, p, q), rules_.chord_error, ends_of(rules_, q));
}

}  // namespace hummock::leap
