#include "engine/entry/lobby.h"

#include <algorithm>
#include <cmath>

namespace hummock::entry {

namespace {

using barrier::HouseWay;
using barrier::SpaceKind;

constexpr double kAlong = 0.05;  // m between the places looked at along a gate; numeric, a setting

// The house right behind p, the fence's line; -1 = none.
int house_behind(const Model& model, Vec2 p, Vec2 out) {
  const barrier::Space space = barrier::space_at(model, p + out * barrier::kBeyondWall);
  return space.kind == SpaceKind::house ? space.index : -1;
}

// The room that all of a stretch of the fence leads into; -1 = none, or not all of it.
int room_behind(const Model& model, const std::vector<int>& rooms, Vec2 a, Vec2 b, Vec2 out) {
  const int n = std::max(1, static_cast<int>(std::ceil(geom::distance(a, b) / kAlong)));
  int room = -1;
  for (int k = 0; k < n; ++k) {
    const int house = house_behind(model, lerp(a, b, (k + 0.5) / n), out);
    if (house < 0) return -1;
    const int here = rooms[static_cast<std::size_t>(house)];
    if (k > 0 && here != room) return -1;
    room = here;
  }
  return room;
}

Vec2 out_of(const Gateway& g) {
  return -left_of(geom::unit(g.b - g.a));
}

double depth_of(const Model& model, const std::vector<int>& rooms, int room, const Gateway& g) {
  constexpr double kStep = 0.01, kMost = 50.0;  // m; numeric, settings
  double depth = 0.0;
  while (depth < kMost) {
    const Vec2 p = lerp(g.a, g.b, 0.5) + out_of(g) * (depth + kStep);
    const int house = house_behind(model, p, {0.0, 0.0});
    if (house < 0 || rooms[static_cast<std::size_t>(house)] != room) break;
    depth += kStep;
  }
  return depth;
}

// A hole of the fence of which any part leads into the room.
bool drained_into(const Model& model, const std::vector<int>& rooms, int room, double head) {
  const Polygon& outline = model.site.boundary.outline;
  return std::any_of(
      model.site.boundary.drains.begin(), model.site.boundary.drains.end(), [&](const Drain& d) {
        double ball = std::min(d.width, d.height);
        if (d.aperture > 0.0) ball = std::min(ball, d.aperture);
        if (ball < head) return false;
        const auto e = static_cast<std::size_t>(d.edge) % outline.size();
        const Vec2 along = geom::unit(outline[geom::following(outline, e)] - outline[e]);
        const Vec2 out = left_of(along) * (geom::signed_area(outline) < 0.0 ? 1.0 : -1.0);
        const int n = std::max(1, static_cast<int>(std::ceil(d.width / barrier::kWayStep)));
        for (int k = 0; k < n; ++k) {
          const Vec2 p = outline[e] + along * (d.from + d.width * (k + 0.5) / n);
          const int house = house_behind(model, p, out);
          if (house >= 0 && rooms[static_cast<std::size_t>(house)] == room) return true;
        }
        return false;
      });
}

bool comes_from_yard(const std::vector<HouseWay>& ways, const std::vector<int>& rooms, int room) {
  return std::any_of(ways.begin(), ways.end(), [&](const HouseWay& w) {
    return rooms[static_cast<std::size_t>(w.house)] == room &&
           w.beyond.kind != SpaceKind::outside && w.beyond.kind != SpaceKind::house;
  });
}

Lobby lobby(const Model& model, const std::vector<int>& rooms, int room, int gateway) {
  Lobby found;
  found.gateway = gateway;
  const std::vector<HouseWay> all = barrier::house_ways(model);
  for (std::size_t h = 0; h < rooms.size(); ++h) {
    if (rooms[h] == room) found.houses.push_back(static_cast<int>(h));
  }
  for (const HouseWay& w : all) {
    const bool its = rooms[static_cast<std::size_t>(w.house)] == room && w.vent < 0;
    if (its && found.door < 0 && w.beyond.kind == SpaceKind::outside) found.door = w.house;
  }
  found.depth_m = depth_of(model, rooms, room, model.gateways[static_cast<std::size_t>(gateway)]);
  return found;
}

}  // namespace

std::vector<Lobby> lobbies(const Model& model, double head) {
  std::vector<Lobby> list;
  if (model.site.houses.empty() || model.gateways.empty()) return list;
  const std::vector<HouseWay> ways = barrier::open_ways(model, head);
  const std::vector<int> rooms = barrier::rooms_of(model, ways);
  for (std::size_t k = 0; k < model.gateways.size(); ++k) {
    const Gateway& g = model.gateways[k];
    const int room = room_behind(model, rooms, g.a, g.b, out_of(g));
    const bool told = std::any_of(list.begin(), list.end(), [&](const Lobby& l) {
      return rooms[static_cast<std::size_t>(l.houses.front())] == room;
    });
    if (room < 0 || told || comes_from_yard(ways, rooms, room)) continue;
    if (drained_into(model, rooms, room, head)) continue;
    list.push_back(lobby(model, rooms, room, static_cast<int>(k)));
  }
  return list;
}

const Lobby* lobby_of_house(const std::vector<Lobby>& lobbies, int house) {
  for (const Lobby& l : lobbies) {
    if (std::find(l.houses.begin(), l.houses.end(), house) != l.houses.end()) return &l;
  }
  return nullptr;
}

const Lobby* lobby_of_gate(const Model& model, const std::vector<Lobby>& lobbies, int gateway) {
  const Gateway& g = model.gateways[static_cast<std::size_t>(gateway)];
  const int house = house_behind(model, lerp(g.a, g.b, 0.5), out_of(g));
  return house < 0 ? nullptr : lobby_of_house(lobbies, house);
}

}  // namespace hummock::entry
