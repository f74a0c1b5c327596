#include "engine/barrier/shared_plans.h"

#include <algorithm>

#include "engine/barrier/cuts.h"

namespace hummock::barrier {

namespace {

bool deep_in(const Polygon& plan, Vec2 p) {
  return geom::contains(plan, p) && geom::distance_to_edges(plan, p) > kSharedDepth;
}

// Some piece of the one's edge lies within the other.
bool edge_runs_in(const Polygon& a, const Polygon& b) {
  for (std::size_t k = 0; k < a.size(); ++k) {
    const Vec2 p = a[k], q = a[geom::following(a, k)];
    const std::vector<double> cuts = cuts_by(p, q, {b});
    for (std::size_t i = 1; i < cuts.size(); ++i) {
      if (deep_in(b, lerp(p, q, 0.5 * (cuts[i - 1] + cuts[i])))) return true;
    }
  }
  return false;
}

// Where no edge does so the plans lie apart, or are one and the same.
bool share_area(const Polygon& a, const Polygon& b) {
  if (edge_runs_in(a, b) || edge_runs_in(b, a)) return true;
  return deep_in(b, geom::largest_inscribed_circle(a, kSharedDepth).centre);
}

}  // namespace

std::vector<std::pair<int, int>> shared_plans(const Model& model) {
  std::vector<std::pair<int, int>> pairs;
  const auto& houses = model.site.houses;
  for (std::size_t a = 0; a < houses.size(); ++a) {
    for (std::size_t b = a + 1; b < houses.size(); ++b) {
      const geom::Box2 p = geom::bounds(houses[a].outline), q = geom::bounds(houses[b].outline);
      if (p.hi.x < q.lo.x || q.hi.x < p.lo.x || p.hi.y < q.lo.y || q.hi.y < p.lo.y) continue;
      if (share_area(houses[a].outline, houses[b].outline))
        pairs.emplace_back(static_cast<int>(a), static_cast<int>(b));
    }
  }
  return pairs;
}

}  // namespace hummock::barrier
