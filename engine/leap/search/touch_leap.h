// The demand at single points: how strongly must it leap to touch this spot.
//
// For a point q the touch demand is min over places p of max(demand of p, e(p, q)), flights taken
// as free: a bound from below. A place's own points have the demand of their place.
#pragma once

#include <atomic>
#include <map>
#include <vector>

#include "engine/leap/search/minimax.h"

namespace hummock::leap {

class TouchLeap {
 public:
  // Keeps references; patches not gained are left out.
  TouchLeap(const std::vector<PatchPtr>& patches, const SearchResult& reached,
            const LinkRules& rules);
  ~TouchLeap();
  TouchLeap(const TouchLeap&) = delete;
  TouchLeap& operator=(const TouchLeap&) = delete;
  // Infinite beyond the limit. Thread-safe.
  double at(geom::Vec3 q) const;

 private:
  const std::vector<PatchPtr>& patches_;
  const SearchResult& reached_;
  const LinkRules& rules_;
  // The pieces below a leaf that is folded, laid when first asked for.
  const Patch& below(int patch, int leaf) const;

  PatchTree tree_;
  std::vector<double> least_;                           // least demand below each node of the tree
  using Laid = std::vector<std::atomic<const Patch*>>;  // by node of the patch's tree
  mutable std::map<int, Laid> laid_;                    // of each patch that is folded
};

}  // namespace hummock::leap
