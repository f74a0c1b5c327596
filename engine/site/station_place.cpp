#include "engine/site/station_place.h"

namespace hummock {

Vec2 station_place(const Site& site, const Station& station) {
  if (station.at) return *station.at;
  for (const Object& object : site.objects)
    if (object.name == station.on) return object.at;
  for (const Den& den : site.dens)
    if (den.name == station.on) return den.at;
  return {};
}

}  // namespace hummock
