// The link that a way found between two spots makes.
#pragma once

#include <algorithm>

#include "engine/leap/search/links.h"
#include "engine/leap/search/minimax.h"

namespace hummock::leap {

// From patch `from`. `below`: m, no way between their cells needs less; `cost`: of the effort, for
// the take-off there. What is in reach asks no effort.
inline Link made_link(const LinkRules& rules, LinkKind kind, int from, const SurfacePiece& p,
                      const SurfacePiece& q, const Arc& arc, double below, double cost) {
  Link link{kind, from, p.at, q.at, 0.0, below, arc.apex, arc.to};
  const bool touching = kind == LinkKind::reach || (kind == LinkKind::step_over_gap &&
                                                    (p.cling || box_gap2(p.cell, q.cell) <= 0.0));
  if (!touching) link.effort = effort_of(rules, arc) * cost;
  if (kind == LinkKind::assumed) link.effort = std::max(link.effort, below);
  return link;
}

}  // namespace hummock::leap
