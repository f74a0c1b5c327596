// The link that a way found between two spots makes, and where none was free the next to try.
#pragma once

#include <algorithm>
#include <optional>

#include "engine/leap/search/links.h"
#include "engine/leap/search/minimax.h"
#include "engine/leap/search/search_queue.h"

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

struct Climb {
  const Arc& least;
  Side side;
  int k;         // the rung to try
  double share;  // of the way, where the one before was blocked
};
// Of an entry's pair of spots; nothing where the ladder ends.
inline std::optional<Entry> next_rung(const LinkRules& rules, const Patch& from, const Entry& e,
                                      const SurfacePiece& p, const SurfacePiece& q,
                                      const Climb& to) {
  const double cost = effort_from(from, cost_of_takeoff(rules.ability, !p.cling));
  const double onward = effort_onward(rules, rung(rules, to.least, to.side, to.k), to.side);
  if (!(onward * cost <= rules.limit)) return std::nullopt;
  Entry next = e;
  next.kind = EntryKind::rung;
  next.side = to.side;
  next.k = static_cast<std::int16_t>(to.k);
  next.share = static_cast<float>(to.share);
  const double bound = rung_bound(rules, to.least, p, q, to.side, to.k - 1, to.share);
  next.key = std::max(e.key, effort_from(from, bound));
  return next;
}

}  // namespace hummock::leap
