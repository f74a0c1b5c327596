#include <algorithm>

#include "engine/base/input_error.h"
#include "engine/model/build/build_steps.h"
#include "geometry/plan/polygon.h"

namespace hummock {
namespace {

constexpr double kOnLine = 1e-6;  // m

bool strictly_inside(const Polygon& polygon, Vec2 p) {
  return geom::contains(polygon, p) && geom::distance_to_edges(polygon, p) > kOnLine;
}

// Where along a→b the polygon's edges cross its line, with both ends.
std::vector<double> cuts(Vec2 a, Vec2 b, const Polygon& polygon) {
  std::vector<double> ts{0.0, 1.0};
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const Vec2 p = polygon[k], q = polygon[(k + 1) % polygon.size()];
    const double dp = cross(b - a, p - a), dq = cross(b - a, q - a);
    if ((dp > 0.0) == (dq > 0.0) || dp == dq) continue;
    const Vec2 at = lerp(p, q, dp / (dp - dq));
    const double t = dot(at - a, b - a) / dot(b - a, b - a);
    if (0.0 < t && t < 1.0) ts.push_back(t);
  }
  std::sort(ts.begin(), ts.end());
  return ts;
}

// Some piece of an edge of `first` between two cuts runs inside `second`.
bool runs_inside(const Polygon& first, const Polygon& second) {
  for (std::size_t k = 0; k < first.size(); ++k) {
    const Vec2 a = first[k], b = first[(k + 1) % first.size()];
    if (geom::distance(a, b) < kOnLine) continue;
    const std::vector<double> ts = cuts(a, b, second);
    for (std::size_t i = 1; i < ts.size(); ++i) {
      if (strictly_inside(second, lerp(a, b, 0.5 * (ts[i - 1] + ts[i])))) return true;
    }
  }
  return false;
}

}  // namespace

void refuse_surroundings_within(const Model& model) {
  for (const Surrounding& thing : model.site.surroundings) {
    if (!runs_inside(thing.outline, model.outline) && !runs_inside(model.outline, thing.outline)) {
      continue;
    }
    throw InputError(thing.where, "\"" + thing.name + "\" stands within the boundary",
                     "a surrounding stands outside; what is inside is an object or a planting");
  }
}

}  // namespace hummock
