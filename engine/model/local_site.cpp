#include "engine/model/local_site.h"

#include <algorithm>
#include <cmath>

#include "engine/grammar/tables.h"
#include "engine/grammar/walk.h"

namespace hummock {
namespace {

constexpr double kNear = 1000.0;  // m

}  // namespace

Vec2 local_origin(const Site& site) {
  const geom::Box2 box = geom::bounds(site.boundary.outline);
  const double farthest =
      std::max({std::abs(box.lo.x), std::abs(box.lo.y), std::abs(box.hi.x), std::abs(box.hi.y)});
  if (farthest <= kNear) return {};
  return {std::floor(box.lo.x), std::floor(box.lo.y)};
}

Site shifted(Site site, Vec2 origin) {
  if (origin != Vec2{}) grammar::shift_places(grammar::site_table(), &site, origin);
  return site;
}

}  // namespace hummock
