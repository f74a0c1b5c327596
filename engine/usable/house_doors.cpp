#include "engine/usable/house_doors.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include "engine/barrier/house_ways.h"
#include "engine/model/climbed.h"
#include "engine/usable/hops.h"
#include "engine/usable/house_insides.h"

namespace hummock::usable {
namespace {

using barrier::HouseWay;

constexpr double kOffTheWall = 0.01;  // m; numeric, a setting

double width_of(const HouseWay& way) {
  return way.to - way.from;
}

// As the ground lies before its middle, snow and all.
bool walked_through(const Model& model, const Body& body, const HouseWay& way) {
  constexpr double kSame = 1e-9;  // m
  if (way.fenced || width_of(way) < body.width - kSame) return false;
  if (way.grille && way.ball < std::max(body.width, body.height)) return false;
  const double foot =
      std::max(way.sill, geom::height_at(model.ground, geom::lerp(way.a, way.b, 0.5)));
  return way.top - foot >= body.height - kSame;
}

bool climbs_wall(const Model& model, int house) {
  return std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& part) {
    return part.kind == PartKind::house && part.source == house &&
           climbs(model.site.species, part.surface);
  });
}

// Nothing between the wall and the middle of a body that stands before it.
bool free_to_wall(const Model& model, const Body& body, Vec3 at, Vec2 out) {
  constexpr double kOfIt[] = {0.1, 0.5, 0.95};
  if (!model.body_scene) return true;
  const Vec3 to_wall = at_height(out * -(0.5 * body.width), 0.0);
  return std::all_of(std::begin(kOfIt), std::end(kOfIt), [&](double share) {
    const Vec3 from = at + Vec3{0.0, 0.0, share * body.height};
    return !model.body_scene->occluded({from, to_wall, 0.0, 1.0});
  });
}

// Its middle at `along` m from the way's a.
std::optional<DoorSpot> spot_at(const Model& model, const UsableGround& ground, const HouseWay& way,
                                double along) {
  const Body& body = ground.body();
  const Vec2 run = geom::unit(way.b - way.a);
  const Vec2 out = -geom::left_of(run);
  const Vec2 p = way.a + run * along + out * (0.5 * body.width + kOffTheWall);
  const double z = geom::height_at(model.ground, p);
  const double water = z + ground.water_depth(p, z);
  DoorSpot spot{at_height(p, std::max(way.sill, z)), 0.0, 0, way.house, {}};
  spot.within = way.a + run * along - out * (0.5 * body.width + kOffTheWall);
  if (water - spot.at.z > model.site.species.wade_depth.value) return std::nullopt;
  if (!free_to_wall(model, body, spot.at, out)) return std::nullopt;
  const double at_wall = geom::height_at(model.ground, way.a + run * along + out * kOffTheWall);
  spot.step = std::max(0.0, way.sill - at_wall);
  if (!climbs_wall(model, way.house)) return spot;
  spot.at.z = z;
  spot.step = 0.0;
  return spot;
}

// Nothing is drawn in a house, and its floor lies no higher than its lowest way: what is higher
// above that than a leap is not gained from within, but by an animal that climbs: what there is for
// it inside is not known.
void erase_out_of_reach(const Model& model, const HouseDoors& doors, std::vector<HouseWay>& ways) {
  const double leap = leaper_of(model.site.species).height;
  std::vector<double> floor(static_cast<std::size_t>(doors.rooms), 1e300);
  const auto room_of = [&](const HouseWay& w) {
    return static_cast<std::size_t>(doors.room_of[static_cast<std::size_t>(w.house)]);
  };
  for (const HouseWay& w : ways) floor[room_of(w)] = std::min(floor[room_of(w)], w.sill);
  if (!model.site.species.climbs.value.empty()) return;
  std::erase_if(ways, [&](const HouseWay& w) { return w.sill - floor[room_of(w)] > leap; });
}

}  // namespace

HouseDoors house_doors(const Model& model, const UsableGround& ground) {
  HouseDoors doors;
  std::vector<HouseWay> ways = barrier::house_ways(model);
  const Body& body = ground.body();
  std::erase_if(ways, [&](const HouseWay& w) { return !walked_through(model, body, w); });
  doors.room_of = barrier::rooms_of(model, ways, barrier::SharedPlans::apart);
  for (const int room : doors.room_of) doors.rooms = std::max(doors.rooms, room + 1);
  erase_out_of_reach(model, doors, ways);
  for (const HouseWay& way : ways) {
    if (way.beyond.kind != barrier::SpaceKind::yard) continue;
    const double half = 0.5 * body.width, spare = std::max(0.0, width_of(way) - body.width);
    const int n = half > 0.0 ? 1 + static_cast<int>(std::ceil(spare / half)) : 1;
    for (int k = 0; k <= n; ++k) {
      std::optional<DoorSpot> spot = spot_at(model, ground, way, half + spare * k / n);
      if (!spot) continue;
      spot->room = doors.room_of[static_cast<std::size_t>(way.house)];
      doors.spots.push_back(*spot);
    }
  }
  part_rooms(model, body, ways, doors);
  return doors;
}

}  // namespace hummock::usable
