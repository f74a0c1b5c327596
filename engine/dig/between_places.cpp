#include "engine/dig/between_places.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace hummock::dig {

namespace {

using Shortest = std::map<std::pair<std::string, bool>, double>;

Shortest shortest_of_each(const std::vector<Station>& stations) {
  Shortest shortest;
  for (const Station& s : stations) {
    const auto it = shortest.try_emplace({s.thing, s.way_out}, s.least_length_m).first;
    it->second = std::min(it->second, s.least_length_m);
  }
  return shortest;
}

bool is_on_edge(const StationPlace& place) {
  return !place.corner && !place.folded;
}

// Is the station's tunnel shorter than a neighbour's, and no longer than the other's?
bool is_least_beside(const std::vector<Station>& stations, const std::vector<StationPlace>& places,
                     std::size_t k) {
  constexpr double kAlike = 1e-4;  // m
  bool shorter = false;
  for (const std::size_t n : {k - 1, k + 1}) {
    if (n >= places.size() || !is_on_edge(places[n])) continue;
    if (places[n].side != places[k].side || places[n].house != places[k].house) continue;
    const double more = stations[n].least_length_m - stations[k].least_length_m;
    if (more < -kAlike) return false;
    shorter = shorter || more > kAlike;
  }
  return shorter;
}

// The stations of the place's edge stand this far apart, m.
double step_of(const Model& model, const StationPlace& place, double spacing) {
  const geom::Polygon& outline =
      place.house < 0 ? model.outline
                      : model.site.houses[static_cast<std::size_t>(place.house)].outline;
  const auto side = static_cast<std::size_t>(place.side);
  const double len = geom::distance(outline[side], outline[(side + 1) % outline.size()]);
  return len / std::max(1.0, std::ceil(len / spacing - 1e-9));
}

StationPlace moved_along(const Model& model, const StationPlace& place, double by) {
  StationPlace moved = place;
  moved.between = true;
  moved.plane.at = place.plane.at - left_of(place.plane.inwards) * by;
  if (place.house < 0) moved.gateway = gateway_at(model, moved.plane.at);
  return moved;
}

}  // namespace

std::vector<StationPlace> places_between(const Model& model, const std::vector<Station>& stations,
                                         const std::vector<StationPlace>& places, double spacing) {
  constexpr int kParts = 4;
  const Shortest shortest = shortest_of_each(stations);
  std::vector<StationPlace> between;
  for (std::size_t k = 0; k < places.size(); ++k) {
    const Station& s = stations[k];
    if (!s.leans || !is_on_edge(places[k]) || !is_least_beside(stations, places, k)) continue;
    if (s.least_length_m > shortest.at({s.thing, s.way_out}) + spacing) continue;
    const double half = 0.5 * step_of(model, places[k], spacing);
    for (int part = 1; part <= kParts; ++part) {
      for (const double by : {-half, half}) {
        between.push_back(moved_along(model, places[k], by * (part - 0.5) / kParts));
      }
    }
  }
  return between;
}

}  // namespace hummock::dig
