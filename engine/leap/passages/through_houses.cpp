#include "engine/leap/passages/through_houses.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <tuple>
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

std::string name_of(const Model& model, const HouseWay& way) {
  const House& house = model.site.houses[static_cast<std::size_t>(way.house)];
  const WallOpening& drawn =
      way.vent < 0 ? *house.door : house.vents[static_cast<std::size_t>(way.vent)];
  return house.name + ", " + drawn.name;
}

// All that the head passes, and the rooms they join.
struct Rooms {
  std::vector<HouseWay> ways;
  std::vector<int> of_house;
  std::vector<double> floor;  // m above datum, by room: its lowest sill
  std::vector<char> helped;   // by room: something in it is said to be climbed on

  Rooms(const Model& model, const PlaceRules& rules)
      : ways(barrier::open_ways(model, rules.least_opening)),
        of_house(barrier::rooms_of(model, ways)) {
    const std::size_t count =
        of_house.empty()
            ? 0
            : static_cast<std::size_t>(*std::max_element(of_house.begin(), of_house.end())) + 1;
    floor.assign(count, 1e300);
    helped.assign(count, rules.helped_indoors ? 1 : 0);
    for (std::size_t h = 0; h < of_house.size(); ++h) {
      if (model.site.houses[h].furnished()) helped[static_cast<std::size_t>(of_house[h])] = 1;
    }
    for (const HouseWay& way : ways) floor[at(way)] = std::min(floor[at(way)], way.hole_sill);
  }

  std::size_t at(const HouseWay& way) const {
    return static_cast<std::size_t>(of_house[static_cast<std::size_t>(way.house)]);
  }

  // The least leap with which it comes up to the way from within, m: to the sill of the hole, and
  // from there where that is shut below.
  double up_to(const HouseWay& way, const PlaceRules& rules) const {
    const double sill = std::min(way.hole_sill - floor[at(way)], way.above_soil);
    const double rise = std::max(sill, way.sill - way.hole_sill);
    const double at_hand = std::max(0.5 * rules.resolution, rules.ability.reach);
    if (helped[at(way)] != 0 || rise <= at_hand) return 0.0;
    return std::max(0.0, rise - rules.ability.grip);
  }
};

// One piece for each part of the way as long as the resolution.
void lay_hole(const PlaceRules& rules, const HouseWay& way, Patch& patch) {
  const double length = geom::distance(way.a, way.b);
  const int n = std::max(1, static_cast<int>(std::ceil(length / rules.resolution)));
  for (int k = 0; k < n; ++k) {
    SurfacePiece piece;
    piece.at = at_height(lerp(way.a, way.b, (k + 0.5) / n), way.sill + kLift);
    for (const double share : {k + 0.0, k + 1.0})
      piece.cell.add(at_height(lerp(way.a, way.b, share / n), way.sill));
    patch.pieces.push_back(piece);
  }
}

// The places of one room: those that are walked between are one, each other is its own.
class RoomPlaces {
 public:
  RoomPlaces(const Model& model, const PlaceRules& rules, const Rooms& rooms, int room)
      : model_(model), rules_(rules), rooms_(rooms), room_(room) {}

  void add(const HouseWay& way) {
    const double up = rooms_.up_to(way, rules_);
    if (way.above_roof) {
      Patch& out = place({2, way.house, way.vent}, name_of(model_, way), up);
      out.kind = PatchKind::exit;
      out.exit = ExitKind::house_hole;
      out.from_within = true;
      lay_hole(rules_, way, out);
      openings_.insert({way.house, way.vent, true});
    } else if (up > 0.0) {
      lay_before(way, place({1, way.house, way.vent}, name_of(model_, way), up));
    } else {
      lay_before(way, place({0, 0, 0},
                            "the way through " + names_of(model_, rooms_.of_house, room_), 0.0));
    }
  }

  std::vector<PatchPtr> finish() {
    std::vector<PatchPtr> places;
    if (openings_.size() < 2 && !parted_) return places;
    for (auto& [key, patch] : patches_) {
      if (patch->pieces.empty()) continue;
      build_tree(*patch);
      places.push_back(std::move(patch));
    }
    return places;
  }

 private:
  using Key = std::array<int, 3>;

  void lay_before(const HouseWay& way, Patch& patch) {
    const std::size_t before = patch.pieces.size();
    parted_ |= lay(model_, rules_, way, patch);
    if (patch.pieces.size() > before) openings_.insert({way.house, way.vent, false});
  }

  Patch& place(const Key& key, const std::string& name, double up) {
    auto& patch = patches_[key];
    if (!patch) {
      patch = std::make_shared<Patch>();
      patch->name = name;
      patch->room = room_;
      patch->up_within = up;
    }
    patch->up_within = std::min(patch->up_within, up);
    return *patch;
  }

  const Model& model_;
  const PlaceRules& rules_;
  const Rooms& rooms_;
  int room_;
  std::map<Key, std::shared_ptr<Patch>> patches_;
  std::set<std::tuple<int, int, bool>> openings_;
  bool parted_ = false;
};

}  // namespace

std::vector<PatchPtr> through_houses(const Model& model, const PlaceRules& rules) {
  const Rooms rooms(model, rules);
  std::vector<PatchPtr> places;
  for (std::size_t room = 0; room < rooms.floor.size(); ++room) {
    RoomPlaces of_it(model, rules, rooms, static_cast<int>(room));
    for (const HouseWay& way : rooms.ways) {
      const bool told = way.above_roof || way.beyond.kind == barrier::SpaceKind::yard;
      if (told && rooms.at(way) == room) of_it.add(way);
    }
    for (PatchPtr& place : of_it.finish()) places.push_back(std::move(place));
  }
  return places;
}

std::vector<int> climbed_within(const Model& model, const PlaceRules& rules) {
  const Rooms rooms(model, rules);
  std::set<int> houses;
  for (const HouseWay& way : rooms.ways) {
    const bool told = way.above_roof || way.beyond.kind == barrier::SpaceKind::yard;
    if (told && rooms.up_to(way, rules) > 0.0) houses.insert(way.house);
  }
  return {houses.begin(), houses.end()};
}

}  // namespace hummock::leap
