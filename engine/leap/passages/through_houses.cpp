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
using geom::Vec3;

namespace {

// Where it stands in part of the way whose middle is m: before the wall, at the sill or, where a
// thing lies before that, as much higher as leaves its head room to get through.
std::optional<Vec3> footing(const Model& model, const PlaceRules& rules, const HouseWay& way,
                            Vec2 m, Vec2 out) {
  constexpr double kHigher = 0.05;  // m; numeric, a setting
  for (const double before : {barrier::kBeyondWall, rules.resolution}) {
    const Vec2 p = m + out * before;
    if (!geom::contains(model.outline, p)) continue;
    const double low = std::max(way.sill, geom::height_at(model.ground, p));
    const double high = std::max(low, way.top - rules.least_opening);
    for (int k = 0; low + k * kHigher <= high; ++k) {
      const Vec3 at = at_height(p, low + k * kHigher + kLift);
      if (room_above(model, at, rules.body.crouch)) return at;
    }
  }
  return std::nullopt;
}

// Part `k` of `n` along the way, out to the resolution before the wall.
std::optional<SurfacePiece> piece_of(const Model& model, const PlaceRules& rules,
                                     const HouseWay& way, int k, int n) {
  const Vec2 out = -geom::left_of(geom::unit(way.b - way.a));
  const std::optional<Vec3> at = footing(model, rules, way, lerp(way.a, way.b, (k + 0.5) / n), out);
  if (!at) return std::nullopt;
  SurfacePiece piece;
  piece.at = *at;
  piece.hook = true;
  for (const double share : {k + 0.0, k + 1.0}) {
    for (const double before : {0.0, rules.resolution}) {
      const Vec2 p = lerp(way.a, way.b, share / n) + out * before;
      piece.cell.add(at_height(p, way.sill));
      piece.cell.add(at_height(p, std::max(at->z - kLift, geom::height_at(model.ground, p))));
    }
  }
  return piece;
}

// Lays the way's pieces; true where something stands between two of them, as a wall that ends at
// the door: then one opening is a passage by itself.
bool lay(const Model& model, const PlaceRules& rules, const HouseWay& way, Patch& patch) {
  const double length = geom::distance(way.a, way.b);
  const int n = std::max(1, static_cast<int>(std::ceil(length / rules.resolution)));
  const Vec3 up{0.0, 0.0, 0.5 * rules.body.crouch};
  bool parted = false;
  int last = -1;
  for (int k = 0; k < n; ++k) {
    const auto piece = piece_of(model, rules, way, k, n);
    if (!piece) continue;
    if (last >= 0) {
      const Vec3 before = patch.pieces.back().at + up;
      parted |= last + 1 < k || !model.body_scene->segment_free(before, piece->at + up);
    }
    patch.pieces.push_back(*piece);
    last = k;
  }
  return parted;
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
  const std::vector<HouseWay> ways = barrier::open_ways(model, rules.least_opening);
  const std::vector<int> rooms = barrier::rooms_of(model, ways);
  const int count = rooms.empty() ? 0 : *std::max_element(rooms.begin(), rooms.end()) + 1;
  std::vector<PatchPtr> places;
  for (int room = 0; room < count; ++room) {
    auto patch = std::make_shared<Patch>();
    std::set<std::pair<int, int>> openings;
    bool parted = false;
    for (const HouseWay& way : ways) {
      if (rooms[static_cast<std::size_t>(way.house)] != room) continue;
      if (way.beyond.kind != barrier::SpaceKind::yard) continue;
      const std::size_t before = patch->pieces.size();
      parted |= lay(model, rules, way, *patch);
      if (patch->pieces.size() > before) openings.insert({way.house, way.vent});
    }
    if (openings.size() < 2 && !parted) continue;
    patch->name = "the way through " + names_of(model, rooms, room);
    build_tree(*patch);
    places.push_back(std::move(patch));
  }
  return places;
}

}  // namespace hummock::leap
