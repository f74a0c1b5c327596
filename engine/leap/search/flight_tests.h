// The flights and limbs that a search tests against what stands in the way, counted, and the box
// that holds them all: what lies outside it cannot change what was found.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/leap/physics/known_flights.h"
#include "engine/leap/search/links.h"
#include "engine/leap/search/search_queue.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::leap {

// Between the last blocked rung and the first free one.
struct Edge {
  double blocked = 0.0, free = 0.0;  // rungs
  double blocked_at = 0.5;           // share of the way
};

class FlightTests {
 public:
  // Keeps references.
  FlightTests(const geom::RayScene& scene, const LinkRules& rules, const KnownFlights* known)
      : scene_(scene), rules_(rules), known_(known) {}

  // `share`: of the way, where it is blocked.
  bool flight_free(const Arc& arc, const SurfacePiece& to, double* share);
  // The same of an entry's pair of spots and rung: what is known of it is not tested again, though
  // it counts.
  bool flight_free(const Arc& arc, const Entry& e, const SurfacePiece& to, double* share);
  // Rung k is free, and the one before was blocked at `share`: by bisection to an eighth.
  Edge close_in(const Arc& least, const SurfacePiece& to, Side side, int k, double share);
  bool limb_free(const std::vector<geom::Vec3>& way);
  // By one of its ways (links.h).
  bool limb_reaches(const SurfacePiece& from, const SurfacePiece& to);

  // From the one to the other, a way that is not flown.
  void touch(const geom::Box3& a, const geom::Box3& b);

  std::int64_t flights() const { return flights_; }
  const geom::Box3& touched() const { return touched_; }

 private:
  geom::Box3 take_in(const Arc& arc);
  bool legs_free(const std::vector<geom::Vec3>& way, double up);

  const geom::RayScene& scene_;
  const LinkRules& rules_;
  const KnownFlights* known_;  // or nothing
  std::int64_t flights_ = 0;
  geom::Box3 touched_;
};

}  // namespace hummock::leap
