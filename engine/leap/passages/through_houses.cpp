#include "engine/leap/passages/through_houses.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "engine/barrier/house_ways.h"

namespace hummock::leap {

using barrier::HouseWay;
using geom::Vec2;

namespace {

// Ways that the head passes, but for those that the fence shuts.
std::vector<HouseWay> open_ways(const Model& model, const PlaceRules& rules) {
  std::vector<HouseWay> ways = barrier::house_ways(model);
  std::erase_if(ways, [&](const HouseWay& w) { return w.fenced || w.ball < rules.least_opening; });
  return ways;
}

// Part `k` of `n` along the way, out to the resolution before the wall.
std::optional<SurfacePiece> piece_of(const Model& model, const PlaceRules& rules,
                                     const HouseWay& way, int k, int n) {
  const Vec2 out = -geom::left_of(geom::unit(way.b - way.a));
  SurfacePiece piece;
  for (const double share : {k + 0.0, k + 1.0}) {
    for (const double before : {0.0, rules.resolution}) {
      const Vec2 p = lerp(way.a, way.b, share / n) + out * before;
      piece.cell.add(at_height(p, way.sill));
      piece.cell.add(at_height(p, std::max(way.sill, geom::height_at(model.ground, p))));
    }
  }
  piece.hook = true;
  for (const double before : {barrier::kBeyondWall, rules.resolution}) {
    const Vec2 p = lerp(way.a, way.b, (k + 0.5) / n) + out * before;
    const double z = std::max(way.sill, geom::height_at(model.ground, p));
    piece.at = at_height(p, z + kLift);
    if (geom::contains(model.outline, p) && room_above(model, piece.at, rules.body.crouch))
      return piece;
  }
  return std::nullopt;
}

void lay(const Model& model, const PlaceRules& rules, const HouseWay& way, Patch& patch) {
  const double length = geom::distance(way.a, way.b);
  const int n = std::max(1, static_cast<int>(std::ceil(length / rules.resolution)));
  for (int k = 0; k < n; ++k) {
    if (const auto piece = piece_of(model, rules, way, k, n)) patch.pieces.push_back(*piece);
  }
}

std::string names_of(const Model& model, const std::vector<int>& rooms, int room) {
  std::string names;
  for (std::size_t h = 0; h < rooms.size(); ++h) {
    if (rooms[h] == room) names += (names.empty() ? "" : " and ") + model.site.houses[h].name;
  }
  return names;
}

}  // namespace

std::vector<PatchPtr> through_houses(const Model& model, const PlaceRules& rules) {
  const std::vector<HouseWay> ways = open_ways(model, rules);
  const std::vector<int> rooms = barrier::rooms_of(model, ways);
  const int count = rooms.empty() ? 0 : *std::max_element(rooms.begin(), rooms.end()) + 1;
  std::vector<PatchPtr> places;
  for (int room = 0; room < count; ++room) {
    auto patch = std::make_shared<Patch>();
    std::set<std::pair<int, int>> openings;
    for (const HouseWay& way : ways) {
      if (rooms[static_cast<std::size_t>(way.house)] != room) continue;
      if (way.beyond.kind != barrier::SpaceKind::yard) continue;
      const std::size_t before = patch->pieces.size();
      lay(model, rules, way, *patch);
      if (patch->pieces.size() > before) openings.insert({way.house, way.vent});
    }
    if (openings.size() < 2) continue;
    patch->name = "the way through " + names_of(model, rooms, room);
    build_tree(*patch);
    places.push_back(std::move(patch));
  }
  return places;
}

}  // namespace hummock::leap
