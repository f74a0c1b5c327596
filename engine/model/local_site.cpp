#include "engine/model/local_site.h"

#include <cmath>

namespace hummock {
namespace {

constexpr double kNear = 1000.0;  // m

void shift(std::vector<Vec2>& points, Vec2 by) {
  for (Vec2& p : points) p = p - by;
}

template <class Things>
void shift_outlines(Things& things, Vec2 by) {
  for (auto& thing : things) shift(thing.outline, by);
}

}  // namespace

Vec2 local_origin(const Site& site) {
  const geom::Box2 box = geom::bounds(site.boundary.outline);
  const double farthest =
      std::max({std::abs(box.lo.x), std::abs(box.lo.y), std::abs(box.hi.x), std::abs(box.hi.y)});
  if (farthest <= kNear) return {};
  return {std::floor(box.lo.x), std::floor(box.lo.y)};
}

Site shifted(Site site, Vec2 origin) {
  if (origin == Vec2{}) return site;
  shift(site.boundary.outline, origin);
  for (GroundForm& form : site.ground.forms) {
    form.at = form.at - origin;
    shift(form.path, origin);
    shift(form.outline, origin);
  }
  if (site.roof && site.roof->outline) shift(*site.roof->outline, origin);
  for (Object& object : site.objects) object.at = object.at - origin;
  for (Den& den : site.dens) den.at = den.at - origin;
  for (Burrow& burrow : site.burrows) {
    burrow.mouth = burrow.mouth - origin;
    shift(burrow.path, origin);
  }
  shift_outlines(site.plantings, origin);
  shift_outlines(site.waters, origin);
  shift_outlines(site.houses, origin);
  shift_outlines(site.surroundings, origin);
  if (site.leap_start) *site.leap_start = *site.leap_start - origin;
  return site;
}

}  // namespace hummock
