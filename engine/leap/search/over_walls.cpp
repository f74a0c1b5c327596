#include "engine/leap/search/over_walls.h"

#include <algorithm>

namespace hummock::leap {

using geom::Box3;

double OverWalls::of_nodes(int from, int node, int to, int node_to) {
  if (!any()) return 0.0;
  const TreeNode& a = places_.node(from, node);
  const TreeNode& b = places_.node(to, node_to);
  return of_boxes(from, -1 - node, a.box, to, b.box, b.hook);
}

double OverWalls::of_pieces(int from, int piece, int to, int piece_to) {
  if (!any()) return 0.0;
  const SurfacePiece& q = places_.piece(to, piece_to);
  return of_boxes(from, piece, places_.piece(from, piece).cell, to, q.cell, q.hook);
}

double OverWalls::of_boxes(int from, std::int64_t key, const Box3& a, int to, const Box3& b,
                           bool hook) {
  if (within_reach(rules_, a, b, hook)) return 0.0;
  const bool steps = box_gap2(a, b) <= rules_.step_over_gap * rules_.step_over_gap;
  const double least = steps ? rise(from, a, to) : from_box(from, key, a, to);
  return effort_from(*patches_[static_cast<std::size_t>(from)], least);
}

double OverWalls::rise(int from, const Box3& box, int to) {
  const double top = walls_.between(static_cast<std::size_t>(from), static_cast<std::size_t>(to));
  return std::max(0.0, top - (box.hi.z + kLift));
}

double OverWalls::from_box(int from, std::int64_t key, const Box3& box, int to) {
  const double top = walls_.between(static_cast<std::size_t>(from), static_cast<std::size_t>(to));
  if (top <= WallsBetween::kNothing) return 0.0;
  const double above = rise(from, box, to);
  auto it = told_.find({from, key});
  if (it == told_.end()) {
    if (efforts_ > kMostEfforts) return above;
    it = told_.emplace(std::pair{from, key}, to_basins(from, box)).first;
  }
  double least = 1e300;
  for (const int basin : walls_.now().basins_of(static_cast<std::size_t>(to)))
    least = std::min(least, it->second[static_cast<std::size_t>(basin)]);
  return least < 1e299 ? std::max(above, least) : above;
}

// Prim's scheme with the dearest saddle in place of the sum, from the basins of the patch.
std::vector<double> OverWalls::to_basins(int from, const Box3& box) {
  const WallsBetween& walls = walls_.now();
  const auto of_saddle = [&](const WallsBetween::Crossing& c) {
    const double r = std::max(0.0, plan_distance(box, c.where) - kBeside * walls.step());
    return std::max(0.0, effort(r, c.height - (box.hi.z + kLift), rules_.ability.stretch));
  };
  std::vector<double> least(walls.basins(), 1e300);
  std::vector<char> done(walls.basins(), 0);
  for (const int b : walls.basins_of(static_cast<std::size_t>(from)))
    least[static_cast<std::size_t>(b)] = 0.0;
  for (;;) {
    std::size_t next = least.size();
    for (std::size_t b = 0; b < least.size(); ++b)
      if (done[b] == 0 && least[b] < 1e299 && (next == least.size() || least[b] < least[next]))
        next = b;
    if (next == least.size()) return least;
    done[next] = 1;
    for (const WallsBetween::Border& border : walls.borders_of(next)) {
      const auto other = static_cast<std::size_t>(border.other);
      if (done[other] != 0) continue;
      double cheapest = 1e300;
      for (const WallsBetween::Crossing& c : *border.crossings)
        cheapest = std::min(cheapest, of_saddle(c));
      efforts_ += static_cast<std::int64_t>(border.crossings->size());
      least[other] = std::min(least[other], std::max(least[next], cheapest));
    }
  }
}

}  // namespace hummock::leap
