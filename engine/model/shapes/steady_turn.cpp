#include "engine/model/shapes/steady_turn.h"

#include <cmath>

namespace hummock {

CosSin steady_cos_sin(double angle) {
  constexpr double kQuarter = geom::kPi / 2.0;
  const double quarters = std::floor(angle / kQuarter + 0.5);
  const double x = angle - quarters * kQuarter;
  double c = 1.0;
  double s = x;
  double term_c = 1.0;
  double term_s = x;
  for (int k = 1; k <= 9; ++k) {
    term_c *= -x * x / ((2.0 * k - 1.0) * (2.0 * k));
    term_s *= -x * x / ((2.0 * k) * (2.0 * k + 1.0));
    c += term_c;
    s += term_s;
  }
  switch (((static_cast<int>(quarters) % 4) + 4) % 4) {
    case 1:
      return {-s, c};
    case 2:
      return {-c, -s};
    case 3:
      return {s, -c};
    default:
      return {c, s};
  }
}

void lean_and_turn(geom::Mesh& mesh, double lean, double turn) {
  const CosSin l = steady_cos_sin(lean);
  const CosSin t = steady_cos_sin(turn);
  for (geom::Vec3& v : mesh.vertices) v = turned(leaned(v, l), t);
}

void shift(geom::Mesh& mesh, geom::Vec3 by) {
  for (geom::Vec3& v : mesh.vertices) v = v + by;
}

}  // namespace hummock
