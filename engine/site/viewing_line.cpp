#include "engine/site/viewing_line.h"

#include "geometry/plan/polygon.h"

namespace hummock {

ViewingLine viewing_line(const Boundary& boundary, const Viewing& v) {
  const Polygon& outline = boundary.outline;
  const auto k = static_cast<std::size_t>(v.edge);
  const Vec2 start = outline[k];
  const Vec2 along = geom::unit(outline[(k + 1) % outline.size()] - start);
  const bool turned = geom::signed_area(outline) < 0.0;
  return {start + along * v.from, start + along * (v.from + v.width),
          turned ? -geom::left_of(along) : geom::left_of(along), v.stand_off};
}

}  // namespace hummock
