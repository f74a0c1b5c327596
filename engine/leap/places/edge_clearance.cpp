#include "engine/leap/places/edge_clearance.h"

#include <algorithm>

namespace hummock::leap {

using geom::Vec3;

std::optional<double> EdgeClearance::way_over(Vec3 p, Vec3 beside) const {
  const Vec3 from = p + beside * kLift - Vec3{0.0, 0.0, kLift};
  const geom::Hit near = model_.body_scene->first_hit({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
  if (!near) return p.z;
  const bool inside = solid(near) && near.normal.z > 0.0;  // of a thing flush with the edge
  if (!inside && near.t - kLift >= opening_) return p.z;
  if (!solid(near)) return std::nullopt;
  const std::vector<geom::Hit> hits =
      model_.body_scene->all_hits({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
  int within = solids_round_start(hits);
  double top = p.z;  // of what is below the clear height looked at
  for (const geom::Hit& hit : hits) {
    const double z = from.z + hit.t;
    if (within == 0 && z - top >= opening_) return top;
    if (!solid(hit)) {
      if (within == 0) return std::nullopt;
      continue;
    }
    within += hit.normal.z > 0.0 ? -1 : 1;
    if (within == 0) top = std::max(top, z);
  }
  return within == 0 ? std::optional<double>(top) : std::nullopt;
}

int EdgeClearance::solids_round_start(const std::vector<geom::Hit>& hits) const {
  int depth = 0;
  int least = 0;
  for (const geom::Hit& hit : hits) {
    if (!solid(hit)) continue;
    depth += hit.normal.z > 0.0 ? -1 : 1;
    least = std::min(least, depth);
  }
  return -least;
}

bool EdgeClearance::solid(const geom::Hit& hit) const {
  return hit.id != kGroundId && model_.parts[static_cast<std::size_t>(hit.id)].closed;
}

bool EdgeClearance::roofed_over(Vec3 p, Vec3 beside) const {
  constexpr double kSky = 1e4;  // m
  const Vec3 from = p + beside * 5e-3 + Vec3{0.0, 0.0, kSky};
  const geom::Hit hit = model_.body_scene->first_hit({from, {0.0, 0.0, -1.0}, 0.0, 2.0 * kSky});
  if (!hit || hit.id == kGroundId) return false;
  const bool roof = model_.parts[static_cast<std::size_t>(hit.id)].kind == PartKind::roof;
  return roof && kSky - hit.t < opening_;
}

}  // namespace hummock::leap
