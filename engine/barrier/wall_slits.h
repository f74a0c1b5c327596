// What of a hole in a house's wall is open, looked at upright in one place: a slit for each part
// that leads elsewhere.
//
// The fence that stands right before the wall (within kBeyondWall) shuts what of the hole lies
// below its top, but for holes of the fence itself ([[boundary.drain]]) that lie before it. A roof
// that closes the yard parts what opens below it, into the yard, from what opens above it: outside,
// wherever on plan. It is looked for up to kShelterAway before the wall, since a slot beside its
// rim is stepped over. A roof that lies wholly in the yard, farther than that from its line, is a
// shelter: above it is the yard still.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "engine/barrier/barrier.h"

namespace hummock::barrier {

inline constexpr double kBeyondWall = 0.02;  // m; numeric, a setting
inline constexpr double kShelterAway = 0.3;  // m; common practice, no source

// What lies before a part of a hole.
struct Before {
  Space beyond;
  bool fenced = false;       // that stands unbroken before it
  bool above_fence = false;  // over the top of the fence right before it
  bool above_roof = false;   // of a roof that closes the yard
  int drain = -1;            // of the boundary's, through which it leads
  friend bool operator==(const Before&, const Before&) = default;
};
struct Slit {
  double low = 0.0, high = 0.0;  // m above datum
  Before before;
};

class BeforeWalls {
 public:
  explicit BeforeWalls(const Model& model);  // keeps a reference

  // Of a hole from `low` to `high` at p on a wall, `out` away from the house, unit. Rising.
  std::vector<Slit> slits(Vec2 p, Vec2 out, double low, double high) const;

 private:
  struct Fence {
    Vec2 a, b;
    double top_a = 0.0, top_b = 0.0;  // m above datum
  };
  struct Drain {
    Vec2 a, b;
    double low = 0.0, high = 0.0;  // m above datum
  };
  std::optional<double> fence_top(Vec2 p) const;
  std::optional<double> roof_before(Vec2 p, Vec2 out, double low) const;

  const Model& model_;
  std::vector<Fence> fence_;
  std::vector<Drain> drains_;
  std::shared_ptr<const geom::RayScene> roof_;  // that closes the yard; nothing = none
};

}  // namespace hummock::barrier
