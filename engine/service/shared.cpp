#include "engine/service/shared.h"

#include <algorithm>
#include <cmath>

#include "engine/barrier/house_ways.h"
#include "engine/brief/take_if.h"
#include "engine/entry/lobby.h"
#include "engine/findings/finding.h"
#include "engine/species/doubt.h"
#include "geometry/plan/polygon.h"

namespace hummock::service {
namespace {

// The careful end of what its head passes: more rooms are its own.
double head_of(const Species& species) {
  const Sourced<double>& head = species.least_opening;
  return careful_end(head, kSmallerHead).value_or(head.value);
}

// A hole of the fence that its head passes, at the house's wall.
bool drained_into(const Model& model, int house) {
  const Boundary& fence = model.site.boundary;
  const Polygon& plan = model.site.houses[static_cast<std::size_t>(house)].outline;
  return std::any_of(fence.drains.begin(), fence.drains.end(), [&](const Drain& d) {
    double ball = std::min(d.width, d.height);
    if (d.aperture > 0.0) ball = std::min(ball, d.aperture);
    if (ball < head_of(model.site.species)) return false;
    const auto e = static_cast<std::size_t>(d.edge) % fence.outline.size();
    const Vec2 from = fence.outline[e];
    const Vec2 along = geom::unit(fence.outline[geom::following(fence.outline, e)] - from);
    constexpr double kStep = 0.05;  // m; numeric, a setting
    const int n = static_cast<int>(std::ceil(d.width / kStep));
    for (int k = 0; k <= n; ++k) {
      const Vec2 p = from + along * (d.from + d.width * k / n);
      if (geom::contains(plan, p) || geom::distance_to_edges(plan, p) <= barrier::kBeyondWall)
        return true;
    }
    return false;
  });
}

// Some way of the house's room, or a hole of the fence, leads an animal into it.
bool is_its_room(const Model& model, int house) {
  const std::vector<barrier::HouseWay> ways =
      barrier::open_ways(model, head_of(model.site.species));
  const std::vector<int> rooms = barrier::rooms_of(model, ways);
  const int room = rooms[static_cast<std::size_t>(house)];
  for (std::size_t h = 0; h < rooms.size(); ++h)
    if (rooms[h] == room && drained_into(model, static_cast<int>(h))) return true;
  return std::any_of(ways.begin(), ways.end(), [&](const barrier::HouseWay& w) {
    return rooms[static_cast<std::size_t>(w.house)] == room &&
           w.beyond.kind != barrier::SpaceKind::outside &&
           w.beyond.kind != barrier::SpaceKind::house;
  });
}

bool free_of_animals(const Model& model, const std::vector<entry::Lobby>& lobbies,
                     const Gateway& gateway, int index) {
  return keepers::houses_behind(model, gateway).empty() ||
         entry::lobby_of_gate(model, lobbies, index) != nullptr;
}

bool outside_the_yard(const Model& model, const Polygon& outline) {
  return std::none_of(outline.begin(), outline.end(),
                      [&](Vec2 p) { return geom::contains(model.outline, p); });
}

const House* house_called(const Site& site, const std::string& name, int& index) {
  for (std::size_t k = 0; k < site.houses.size(); ++k) {
    if (site.houses[k].name != name) continue;
    index = static_cast<int>(k);
    return &site.houses[k];
  }
  return nullptr;
}

void ask_at_the_door(const keepers::Yard& yard, int house, Place& place) {
  const auto door = keepers::door_outside(yard.model, house);
  if (!door || is_its_room(yard.model, house)) return;
  place.people = keepers::way_to_door(yard, *door, {});
  place.shared = !place.people.goes();
}

}  // namespace

std::vector<GateRow> ask_at_the_gates(const Model& model) {
  const keepers::Yard yard(model);
  const keepers::Walker barrow{kBarrowWidth, keepers::kRolledOver, kSteepest};
  const std::vector<entry::Lobby> lobbies = entry::lobbies(model, head_of(model.site.species));
  std::vector<GateRow> rows;
  for (std::size_t k = 0; k < model.gateways.size(); ++k) {
    const Gateway& g = model.gateways[k];
    const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    GateRow row{gate.name, gate.width, gate.width >= kBarrowWidth, false, {}, {}, {}, true};
    row.at = lerp(g.a, g.b, 0.5);
    row.people = keepers::way_in(yard, g, {});
    if (row.wide_enough) row.barrow = keepers::way_in(yard, g, barrow);
    row.shared =
        !row.people.outside.goes || !free_of_animals(model, lobbies, g, static_cast<int>(k));
    rows.push_back(std::move(row));
  }
  return rows;
}

void mark_shared_places(const Model& model, std::vector<Place>& places) {
  const keepers::Yard yard(model);
  for (Place& place : places) {
    int house = -1;
    if (place.kind == "house" && house_called(model.site, place.name, house) != nullptr)
      ask_at_the_door(yard, house, place);
    for (const Water& w : model.site.waters)
      if (place.kind == "water" && w.name == place.name && outside_the_yard(model, w.outline))
        place.shared = false;
  }
}

RestsOn what_it_rests_on(const Result& result, const Model& model) {
  RestsOn barrow, gates, places;
  const auto take = [&](const keepers::WayIn& way, const std::string& to, RestsOn& into) {
    for (const Assumption& a : keepers::what_it_rests_on(model.site, way, quoted(to)))
      take_if(a, into);
  };
  for (const GateRow& row : result.gates) {
    if (row.reaches) take(row.barrow, row.name, barrow);
    if (!row.shared) take(row.people, row.name, gates);
  }
  for (const Place& place : result.places)
    if (!place.shared) take(place.people, place.name, places);
  barrow.figures = {"service.reached_area_m2", "service.reached_share", "service.cut_off_count"};
  gates.figures = {"service.shared_gates"};
  places.figures = {"service.shared_places"};
  barrow.besides = {gates, places};
  return barrow;
}

}  // namespace hummock::service
