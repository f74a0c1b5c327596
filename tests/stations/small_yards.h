// Yards with stations, for these tests.
#pragma once

#include <string>

#include "engine/stations/stations.h"
#include "tests/support/yard.h"

namespace hummock::test {

inline Polygon rectangle(Vec2 lo, Vec2 hi) {
  return {lo, {hi.x, lo.y}, hi, {lo.x, hi.y}};
}

inline Station& add_station(Site& site, StationKind kind, std::optional<Vec2> at,
                            const std::string& on = {}, double z = 0.0) {
  Station s;
  s.name = "station " + std::to_string(site.stations.size() + 1);
  s.kind = kind;
  s.at = at;
  s.on = on;
  s.z = z;
  return site.stations.emplace_back(s);
}

inline Viewing& add_viewing(Site& site, int edge, double from, double width) {
  Viewing v;
  v.name = "viewing " + std::to_string(site.viewings.size() + 1);
  v.edge = edge;
  v.from = from;
  v.width = width;
  return site.viewings.emplace_back(v);
}

inline const stations::KindRow& kind_of(const stations::Result& r, StationKind kind) {
  return r.kinds[static_cast<std::size_t>(kind)];
}

}  // namespace hummock::test
