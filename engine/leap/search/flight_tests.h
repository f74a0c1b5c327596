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

// What was found of the flight of a rung, as it is remembered (flight_memo.h): −1 free, 0 …
// kMostChords − 1 the first chord that is blocked, with none free beside it; beyond, the way that
// is free beside it.
int way_found(const geom::RayScene& scene, const LinkRules& rules, const Arc& arc,
              const SurfacePiece& from, const SurfacePiece& to, Side side, int k);
Way way_of(int found);

struct Flown {
  Way way = Way::blocked;
  double share = 0.5;  // of the way, where it is blocked
};

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
  // Of an entry's pair of spots and rung, beside corners too (links.h): what is known of it is not
  // tested again, though it counts as one flight.
  Flown fly(const Arc& arc, const Entry& e, const SurfacePiece& from, const SurfacePiece& to);
  // Rung k is free, and the one before was blocked at `share`: by bisection to an eighth.
  Edge close_in(const Arc& least, const SurfacePiece& to, Side side, int k, double share);
  // The flight found of an entry's rung, past a corner closed in on the rung below as well: what
  // bounds the effort from above, not what it counts for.
  Aside flown(const Entry& e, const SurfacePiece& from, const SurfacePiece& to, Way way);
  bool limb_free(const std::vector<geom::Vec3>& way);
  // By one of its ways (links.h).
  bool limb_reaches(const SurfacePiece& from, const SurfacePiece& to);

  // From the one to the other, a way that is not flown.
  void touch(const geom::Box3& a, const geom::Box3& b);

  std::int64_t flights() const { return flights_; }
  const geom::Box3& touched() const { return touched_; }

 private:
  geom::Box3 take_in(const Arc& arc);
  geom::Box3 take_in_aside(geom::Box3 box, const Arc& arc, const SurfacePiece& from,
                           const SurfacePiece& to);
  bool legs_free(const std::vector<geom::Vec3>& way, double up);

  const geom::RayScene& scene_;
  const LinkRules& rules_;
  const KnownFlights* known_;  // or nothing
  std::int64_t flights_ = 0;
  geom::Box3 touched_;
};

}  // namespace hummock::leap
