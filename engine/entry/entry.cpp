#include "engine/entry/entry.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "engine/barrier/house_ways.h"
#include "engine/entry/gate_swing.h"
#include "engine/entry/lobby.h"
#include "engine/entry/open_vestibule.h"
#include "engine/entry/people.h"
#include "engine/entry/vestibule_walls.h"
#include "engine/entry/vestibule_way.h"
#include "engine/entry/way_beyond.h"
#include "engine/findings/finding.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

std::string metres(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f m", value);
  return text;
}

std::string post_in_words(const Model& model, Vec2 p) {
  const Vec2 at = model.to_site(p);
  char text[64];
  std::snprintf(text, sizeof text, "the post at (%.2f, %.2f)", at.x, at.y);
  return text;
}

void judge_swing(const Model& model, const Gateway& g, const Gate& gate, GateRow& row) {
  const auto about_a = obstacle_in(model, swing_about(g, gate, true));
  const auto about_b = obstacle_in(model, swing_about(g, gate, false));
  row.swing_free = !about_a || !about_b;
  if (!about_a && !about_b) {
    row.hinge = "either post";
    return;
  }
  row.in_the_swing = about_a ? *about_a : *about_b;
  if (about_a && about_b && *about_a != *about_b) row.in_the_swing += " and " + *about_b;
  if (row.swing_free) row.hinge = post_in_words(model, about_a ? g.b : g.a);
}

bool seen_through(const Model& model, int part) {
  return part >= 0 && model.parts[static_cast<std::size_t>(part)].sight > 0.0;
}

void judge_vestibule(const Model& model, const Gateway& g, const Gate& gate,
                     const Settings& settings, GateRow& row) {
  row.vestibule = gate.vestibule.has_value();
  row.window = gate.window || seen_through(model, g.leaf_part);
  row.needed_depth_m = settings.keeper_and_barrow + (gate.opens_inwards ? 0.0 : gate.width);
  if (!gate.vestibule) return;
  row.second_gate = gate.vestibule->second_gate;
  row.window = row.window || gate.vestibule->window;
  row.vestibule_depth_m = gate.vestibule->depth;
  row.long_enough = row.vestibule_depth_m >= row.needed_depth_m - 1e-9;
  row.in_the_vestibule = stands_in_vestibule(model, g, gate).value_or("");
}

// A lobby is a vestibule of which the second gate is its door.
void judge_lobby(const Lobby& lobby, GateRow& row) {
  row.vestibule = true;
  row.second_gate = lobby.door >= 0;
  row.vestibule_depth_m = lobby.depth_m;
  row.long_enough = row.vestibule_depth_m >= row.needed_depth_m - 1e-9;
}

void list_faults(GateRow& row) {
  if (row.one_open_door_escapes) row.faults.push_back("one open door leads " + row.leads_to);
  if (!row.vestibule) {
    row.faults.emplace_back("no vestibule");
  } else {
    if (!row.second_gate) row.faults.emplace_back("the vestibule has no second gate");
    if (!row.long_enough) {
      row.faults.push_back("the vestibule is " + metres(row.vestibule_depth_m) +
                           " deep, keeper and barrow between two doors need " +
                           metres(row.needed_depth_m));
    }
  }
  if (!row.in_the_vestibule.empty())
    row.faults.push_back(hummock::quoted(row.in_the_vestibule) +
                         " leaves no way through the vestibule");
  if (!row.window) row.faults.emplace_back("no sight in before opening");
  if (!row.swing_free) row.faults.push_back(row.in_the_swing + " stands in the leaf's swing");
  if (!row.in_the_second_swing.empty())
    row.faults.push_back(row.in_the_second_swing + " stands in the swing of the second gate");
  row.met = row.faults.empty();
}

GateRow judge_gate(const Model& model, const barrier::Barrier& barrier, int gateway,
                   const Lobby* lobby, const Settings& settings) {
  const Gateway& g = model.gateways[static_cast<std::size_t>(gateway)];
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  GateRow row;
  row.name = gate.name;
  row.at = at_height(lerp(g.a, g.b, 0.5), g.leaf_foot);
  judge_vestibule(model, g, gate, settings, row);
  if (lobby != nullptr && !gate.vestibule) judge_lobby(*lobby, row);
  judge_swing(model, g, gate, row);
  row.in_the_second_swing =
      in_the_second_swing(model, g, gate, row.vestibule_depth_m - row.needed_depth_m);
  const WayBeyond way = way_beyond(model, g);
  row.leads_to = way.words;
  row.held_by_things = way.held_by_things;
  row.one_open_door_escapes = way.outside;
  const VestibuleWalls walls = judge_walls(model, barrier, gateway);
  if (way.passable && !way.outside && walls.weaker) {
    row.one_open_door_escapes = true;
    row.leads_to = walls.words;
  } else if (!way.outside) {
    VestibuleEscape escape = escape_from_vestibule(model, gateway, settings.leap);
    row.one_open_door_escapes = way.passable && escape.out;
    if (row.one_open_door_escapes) row.leads_to = escape.words;
    row.open_vestibule = std::move(escape.search);
  }
  list_faults(row);
  if (walls.into_yard) {
    row.faults.emplace_back("the vestibule stands in another stretch of the yard");
    row.met = false;
  }
  if (!way.passable) {
    row.faults.push_back("the open door leads " + way.words);
    row.met = false;
  }
  return row;
}

// A house with its door in a vestibule and another way into the yard joins the two: past the gate
// in use, the second one holds alone.
bool leads_past_gate(const std::vector<barrier::HouseWay>& ways, const std::vector<int>& rooms,
                     const barrier::HouseWay& door) {
  const auto room = [&](const barrier::HouseWay& w) {
    return rooms[static_cast<std::size_t>(w.house)];
  };
  return std::any_of(ways.begin(), ways.end(), [&](const barrier::HouseWay& w) {
    return w.beyond.kind == barrier::SpaceKind::yard && room(w) == room(door);
  });
}

GateRow door_in_vestibule(const Model& model, const barrier::HouseWay& door,
                          const Settings& settings) {
  const House& house = model.site.houses[static_cast<std::size_t>(door.house)];
  const Gateway& g = model.gateways[static_cast<std::size_t>(door.beyond.index)];
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  GateRow row;
  row.name = house.name + ", " + house.door->name;
  row.at = at_height(lerp(door.a, door.b, 0.5), door.sill);
  row.vestibule = row.second_gate = row.long_enough = row.window = true;
  row.needed_depth_m = settings.keeper_and_barrow;
  row.one_open_door_escapes = true;
  row.leads_to =
      "from the yard through the house into the vestibule of '" + gate.name + "', past its gate";
  row.hinge = "not looked at";
  list_faults(row);
  return row;
}

void add_doors_in_vestibules(const Model& model, double head, const Settings& settings,
                             std::vector<GateRow>& rows) {
  const std::vector<barrier::HouseWay> ways = barrier::open_ways(model, head);
  const std::vector<int> rooms = barrier::rooms_of(model, ways);
  int last = -1;  // a row a house
  for (const barrier::HouseWay& w : ways) {
    if (w.vent >= 0 || w.beyond.kind != barrier::SpaceKind::vestibule || w.house == last) continue;
    last = w.house;
    if (leads_past_gate(ways, rooms, w)) rows.push_back(door_in_vestibule(model, w, settings));
  }
}

// A house door to the outside is a way in without a vestibule, or a lobby's second door.
void add_house_door(const Model& model, const barrier::Chain& chain, const Lobby* lobby,
                    const Settings& settings, std::vector<GateRow>& rows) {
  const auto door =
      std::find_if(chain.stretches.begin(), chain.stretches.end(), [](const barrier::Stretch& s) {
        return s.kind == barrier::StretchKind::house_door &&
               s.right.kind == barrier::SpaceKind::outside;
      });
  if (door == chain.stretches.end()) return;
  const House& house = model.site.houses[static_cast<std::size_t>(chain.index)];
  const Vec2 middle = lerp(door->a, door->b, 0.5);
  GateRow row;
  row.name = house.name + ", " + house.door->name;
  row.house = chain.index;
  row.at = at_height(middle, geom::height_at(model.ground, middle));
  row.needed_depth_m = settings.keeper_and_barrow;
  row.one_open_door_escapes = lobby == nullptr;
  row.leads_to = "from the house straight to the outside";
  if (lobby != nullptr) {
    const Gateway& g = model.gateways[static_cast<std::size_t>(lobby->gateway)];
    const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    judge_lobby(*lobby, row);
    row.second_gate = true;
    row.leads_to = "from the lobby behind the shut gate '" + gate.name + "' to the outside";
  }
  row.hinge = "not looked at";
  list_faults(row);
  rows.push_back(row);
}

}  // namespace

std::vector<GateRow> door_rows(const Model& model, double head, const Settings& settings) {
  std::vector<GateRow> rows;
  const std::vector<Lobby> list = lobbies(model, head);
  for (const barrier::Chain& chain : barrier::barrier_of(model).chains) {
    if (chain.kind != barrier::ChainKind::house) continue;
    add_house_door(model, chain, lobby_of_house(list, chain.index), settings, rows);
  }
  add_doors_in_vestibules(model, head, settings, rows);
  return rows;
}

Result analyse(const Model& model, const Settings& settings) {
  Result result;
  const double head = model.site.species.least_opening.value;
  const barrier::Barrier barrier = barrier::barrier_of(model);
  const std::vector<Lobby> list = lobbies(model, head);
  for (int k = 0; k < static_cast<int>(model.gateways.size()); ++k) {
    const Lobby* lobby = lobby_of_gate(model, list, k);
    result.gates.push_back(judge_gate(model, barrier, k, lobby, settings));
  }
  for (GateRow& row : door_rows(model, head, settings)) result.gates.push_back(std::move(row));
  ask_for_people(model, result.gates);
  result.met = std::all_of(result.gates.begin(), result.gates.end(),
                           [](const GateRow& row) { return row.met; });
  return result;
}

}  // namespace hummock::entry
