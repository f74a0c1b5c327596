// An upright wall between two plan points: straight top, any foot, rectangular holes.
#pragma once

#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/terrain/heightfield.h"

namespace hummock {

struct WallHole {
  double from = 0.0, to = 0.0;     // along the wall, 0..1
  double bottom = 0.0, top = 0.0;  // m above datum
};

struct Wall {
  geom::Vec2 a, b;
  std::vector<double> along;  // rising from 0 to 1
  std::vector<double> foot;   // m above datum, one for each of `along`, straight between
  double top_a = 0.0, top_b = 0.0;
  std::vector<WallHole> holes;
};

// Foot on the ground between a and b, point by point where the ground breaks.
Wall wall_on_ground(const geom::Heightfield& ground, geom::Vec2 a, geom::Vec2 b, double top_a,
                    double top_b);
// Foot straight from foot_a to foot_b.
Wall straight_wall(geom::Vec2 a, geom::Vec2 b, double foot_a, double foot_b, double top_a,
                   double top_b);

// The wall with its foot raised to the line from rail_a to rail_b where that is higher.
Wall raised_foot(const Wall& wall, double rail_a, double rail_b);

// Appends the wall as a single sheet whose normal points to the right of a→b. Where the foot is
// above the top there is nothing.
void append_wall(geom::Mesh& mesh, const Wall& wall);

}  // namespace hummock
