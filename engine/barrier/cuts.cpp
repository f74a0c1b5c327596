#include "engine/barrier/cuts.h"

#include <algorithm>
#include <cmath>

#include "engine/barrier/barrier.h"

namespace hummock::barrier {

namespace {

void cut_by_edge(Vec2 a, Vec2 b, Vec2 p, Vec2 q, std::vector<double>& ts) {
  const Vec2 d = b - a, e = q - p;
  const double len = geom::length(d);
  // A corner on the line cuts it, whether the edges cross there or only touch.
  if (geom::distance_to_segment(p, a, b) < kSameLine) ts.push_back(dot(p - a, d) / (len * len));
  const double det = cross(d, e);
  if (std::abs(det) < 1e-12 * len * geom::length(e)) return;
  const double t = cross(p - a, e) / det;
  const double s = cross(p - a, d) / det;
  const double slack = kSameLine / geom::length(e);
  if (t > 0.0 && t < 1.0 && s > -slack && s < 1.0 + slack) ts.push_back(t);
}

bool may_meet(const geom::Box2& box, Vec2 a, Vec2 b) {
  return std::min(a.x, b.x) <= box.hi.x + kSameLine && std::max(a.x, b.x) >= box.lo.x - kSameLine &&
         std::min(a.y, b.y) <= box.hi.y + kSameLine && std::max(a.y, b.y) >= box.lo.y - kSameLine;
}

}  // namespace

std::vector<double> cuts_by(Vec2 a, Vec2 b, const std::vector<Polygon>& others) {
  std::vector<double> ts;
  for (const Polygon& other : others) {
    if (other.empty() || !may_meet(geom::bounds(other), a, b)) continue;
    for (std::size_t k = 0; k < other.size(); ++k) {
      cut_by_edge(a, b, other[k], other[(k + 1) % other.size()], ts);
    }
  }
  std::sort(ts.begin(), ts.end());
  const double least = kSameLine / std::max(geom::distance(a, b), kSameLine);
  std::vector<double> kept{0.0};
  for (const double t : ts) {
    if (t - kept.back() > least && 1.0 - t > least) kept.push_back(t);
  }
  kept.push_back(1.0);
  return kept;
}

}  // namespace hummock::barrier
