#include "engine/dig/stations.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::dig {

namespace {

using barrier::ChainKind;
using barrier::Look;
using barrier::Run;
using barrier::Stretch;
using barrier::StretchKind;

// Corner planes start this far along the next edge: both edges' parts are then cut for certain.
constexpr double kOffCorner = 1e-3;  // m
// Nearer than this to another edge there is no ground to stand on and dig.
constexpr double kNoRoom = 0.02;  // m

std::vector<Stretch> gates_in(const Run& run) {
  std::vector<Stretch> gates;
  std::copy_if(run.pieces.begin(), run.pieces.end(), std::back_inserter(gates),
               [](const Stretch& s) { return s.kind == StretchKind::gate; });
  return gates;
}

// The gate whose line p lies on, -1 = none. A place between two is the first's.
int gateway_on(const std::vector<Stretch>& gates, Vec2 p) {
  constexpr double kOnLine = 1e-6;  // m
  int gateway = -1;
  for (const Stretch& s : gates) {
    if (geom::distance_to_segment(p, s.a, s.b) >= kOnLine) continue;
    if (gateway < 0 || s.gateway < gateway) gateway = s.gateway;
  }
  return gateway;
}

void add_edge_stations(const Run& run, double spacing, std::vector<StationPlace>& places) {
  const Vec2 a = run.whole.a, b = run.whole.b;
  const double len = geom::distance(a, b);
  const int n = std::max(1, static_cast<int>(std::ceil(len / spacing - 1e-9)));
  StationPlace place;
  place.plane.inwards = left_of(geom::unit(b - a));
  place.section = run.whole.section;
  place.side = run.whole.side;
  const std::vector<Stretch> gates = gates_in(run);
  for (int k = 0; k < n; ++k) {
    place.plane.at = lerp(a, b, (k + 0.5) / n);
    place.gateway = gateway_on(gates, place.plane.at);
    places.push_back(place);
  }
}

// A fan of planes from the normal of the side before the corner to that of the side after it.
void add_fan(const Model& model, StationPlace place, Vec2 before, Vec2 at, Vec2 along, double step,
             std::vector<StationPlace>& places) {
  const Vec2 from = left_of(geom::unit(at - before));
  const double turn = std::atan2(cross(from, left_of(along)), dot(from, left_of(along)));
  const int fans = static_cast<int>(std::ceil(std::abs(turn) / step));
  place.corner = true;
  place.plane.at = at + along * kOffCorner;
  for (int k = 0; k < fans; ++k) {
    const double t = turn * (k + 0.5) / fans;
    place.plane.inwards = {from.x * std::cos(t) - from.y * std::sin(t),
                           from.x * std::sin(t) + from.y * std::cos(t)};
    const Limits room = limits_at(model, place);
    if (std::min(room.inside, room.outside) > kNoRoom) places.push_back(place);
  }
}

void add_corner_stations(const Model& model, const Run& run, double step,
                         std::vector<StationPlace>& places) {
  const std::size_t n = model.outline.size();
  const auto corner = static_cast<std::size_t>(run.whole.side);
  const Vec2 at = model.outline[corner];
  const Vec2 along = geom::unit(model.outline[(corner + 1) % n] - at);
  StationPlace place;
  place.section = run.whole.section;
  place.side = run.whole.side;
  place.gateway = gateway_on(gates_in(run), at + along * kOffCorner);
  add_fan(model, place, model.outline[(corner + n - 1) % n], at, along, step, places);
}

// Where the yard lies on the other side the wall is no way out.
bool leads_out(const Model& model, const CutPlane& plane) {
  return !geom::contains(model.outline, plane.at - plane.inwards * kNoRoom);
}

void add_house_corner(const Model& model, const Run& before, const Run& run, double step,
                      std::vector<StationPlace>& places) {
  StationPlace place;
  place.house = run.whole.house;
  place.side = run.whole.side;
  const std::size_t first = places.size();
  add_fan(model, place, before.whole.a, run.whole.a, geom::unit(run.whole.b - run.whole.a), step,
          places);
  for (std::size_t k = first; k < places.size(); ++k) {
    places[k].way_out = leads_out(model, places[k].plane);
  }
}

void add_house_stations(const Model& model, const Run& run, double spacing,
                        std::vector<StationPlace>& places) {
  const Vec2 a = run.whole.a, b = run.whole.b;
  const double len = geom::distance(a, b);
  const int n = std::max(1, static_cast<int>(std::ceil(len / spacing - 1e-9)));
  StationPlace place;
  place.house = run.whole.house;
  place.plane.inwards = left_of(geom::unit(b - a));
  place.side = run.whole.side;
  for (int k = 0; k < n; ++k) {
    place.plane.at = lerp(a, b, (k + 0.5) / n);
    place.way_out = leads_out(model, place.plane);
    places.push_back(place);
  }
}

}  // namespace

Look look(const Stretch& s) {
  switch (s.kind) {
    case StretchKind::panel:
    case StretchKind::gate:
      return s.told_elsewhere ? Look::told_elsewhere : Look::walked;
    case StretchKind::house_wall:
    case StretchKind::house_door:
      return Look::walked;
    case StretchKind::vestibule_wall:
    case StretchKind::second_gate:
      return Look::not_lived_in;
    case StretchKind::roof_edge:
      return Look::in_the_air;
  }
  return Look::walked;
}

int gateway_at(const Model& model, Vec2 p) {
  for (std::size_t k = 0; k < model.gateways.size(); ++k) {
    const Gateway& g = model.gateways[k];
    if (geom::distance_to_segment(p, g.a, g.b) < 1e-6) return static_cast<int>(k);
  }
  return -1;
}

std::vector<StationPlace> station_places(const Model& model, const BuriedParts& parts,
                                         double spacing) {
  std::vector<StationPlace> places;
  const barrier::Barrier barrier = barrier::barrier_of(model);
  const double reach = std::max(parts.widest(), 0.3);
  for (const barrier::Chain& chain : barrier.chains) {
    const std::vector<Run> sides = runs_of(chain, barrier::Join::side, look);
    for (std::size_t k = 0; k < sides.size(); ++k) {
      if (chain.kind == ChainKind::house) {
        const Run& before = sides[(k + sides.size() - 1) % sides.size()];
        add_house_corner(model, before, sides[k], spacing / reach, places);
        add_house_stations(model, sides[k], spacing, places);
      } else {
        add_corner_stations(model, sides[k], spacing / reach, places);
        add_edge_stations(sides[k], spacing, places);
      }
    }
  }
  const std::vector<StationPlace> askew = askew_places(model, barrier);
  places.insert(places.end(), askew.begin(), askew.end());
  return places;
}

std::string thing_at(const Model& model, const StationPlace& place) {
  if (place.house >= 0) return model.site.houses[static_cast<std::size_t>(place.house)].name;
  if (place.gateway >= 0) {
    const Gateway& g = model.gateways[static_cast<std::size_t>(place.gateway)];
    return model.site.boundary.gates[static_cast<std::size_t>(g.gate)].name;
  }
  if (place.section < 0) return "boundary";
  return model.site.boundary.sections[static_cast<std::size_t>(place.section)].name;
}

}  // namespace hummock::dig
