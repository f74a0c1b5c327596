#include "engine/model/shapes/mean_value.h"

#include <cmath>

namespace hummock {

double mean_value(const geom::Polygon& polygon, const std::vector<double>& values, geom::Vec2 p) {
  constexpr double kOn = 1e-9;  // m
  const std::size_t n = polygon.size();
  std::vector<double> weight(n, 0.0);
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t next = (k + 1) % n;
    const geom::Vec2 a = polygon[k] - p;
    const geom::Vec2 b = polygon[next] - p;
    const double ra = geom::length(a);
    const double rb = geom::length(b);
    if (ra < kOn) return values[k];
    if (rb < kOn) return values[next];
    const double area = cross(a, b);
    const double across = dot(a, b);
    if (across < 0.0 && std::abs(area) < kOn * geom::distance(a, b)) {
      return (rb * values[k] + ra * values[next]) / (ra + rb);
    }
    // tan(half the angle between a and b); 0 when they are in line on one side.
    const double half = area != 0.0 ? (ra * rb - across) / area : 0.0;
    weight[k] += half / ra;
    weight[next] += half / rb;
  }
  double sum = 0.0;
  double total = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    sum += weight[k] * values[k];
    total += weight[k];
  }
  return sum / total;
}

}  // namespace hummock
