// A ball, cone or cylinder, stretched and set anywhere, and how long a line runs through it.
//
// The body is the affine image of a unit one: p = foot + x·a + y·b + z·c for (x, y, z) in it. A
// line in the one is a line in the other with the same parameter, so the stretch inside is that
// between two roots of a quadratic, cut by the planes of base and top. Exact: no facets.
#pragma once

#include "geometry/vec.h"

namespace hummock::geom {

// Unit bodies, each of height 1 over z = 0 and of radius 1 about the z axis.
enum class RoundKind {
  ellipsoid,  // x² + y² + (2z − 1)² <= 1
  cone,       // x² + y² <= (1 − z)², 0 <= z <= 1
  cylinder    // x² + y² <= 1, 0 <= z <= 1
};

struct RoundVolume {
  RoundKind kind = RoundKind::ellipsoid;
  Vec3 foot;     // where the unit body's origin stands
  Vec3 a, b, c;  // images of its axes, linearly independent
};

// Stretch of a line from + t·direction, as t: empty when from >= to.
struct Stretch {
  double from = 0.0, to = 0.0;
};

// A volume with its inverse at hand.
class RoundBody {
 public:
  explicit RoundBody(const RoundVolume& volume);
  RoundKind kind() const { return kind_; }
  Vec3 into(Vec3 p) const;         // a point in the unit body's coordinates
  Vec3 turned(Vec3 vector) const;  // a direction in them
  // The part of the whole line inside.
  Stretch inside(Vec3 from, Vec3 direction) const;
  // Length of the half line from t = 0 on inside, in lengths of `direction`.
  double length_ahead(Vec3 from, Vec3 direction) const;

 private:
  RoundKind kind_;
  Vec3 foot_;
  Vec3 x_, y_, z_;  // rows of the inverse
};

}  // namespace hummock::geom
