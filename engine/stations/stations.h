// Stations: what is set out for the animal and its keepers, and whether the animal comes to it.
//
// Model. A station is a point: `z` above the ground, above the floor of the house it lies in, or
// above the top of the thing it is said to be on, straight below it. One that is not over that
// thing is not set out: it counts for nothing.
//   comes to   the animal comes to a station when some place of its own is within the station's
//              `reach` of it, measured from its standing body, feet to back, with nothing solid
//              between its back and the station. Its own are: ground it can live on and comes to
//              (engine/usable/usable_ground.h), a house it goes into and out of again, and a top of
//              a thing that holds its body, which it leaps or climbs to from that ground and back
//              (engine/usable/hops.h, climb_ways.h). What is not found is not come to, nor
//              what lies outside the boundary and in no house.
//   counts     food, bowls, water points, enrichment, sunning rocks and scales count where the
//              animal comes to them, heat lamps and cameras where they are set out. A water point
//              and a bowl are two kinds.
//   apart      on plan, between two of a kind, and between food and bowls or water points, whether
//              the animal comes to them or not. Pools are no stations.
//   guests     on plan, from a station to the nearest stretch of the boundary behind which guests
//              stand, whatever fence stands there. Nothing is told where the site says of none.
//   heat lamp  clearance from its lowest point to the animal wherever it might be: stretched up
//              (as high as it is tall, or as it reaches where that is more) on any ground it can
//              be on, in any house or den, on the top of any object, den, house or fence, whether
//              it gets there or not; and within its reach of every face it climbs, and of the box
//              about the crown of a tree whose bark it climbs. Looked for within kLampSought, and
//              told as no more than that. A leap at the lamp is not in it: whether one from any of
//              these places passes the lamp, whatever stands between, is told beside it, at the
//              careful end of the animal's leap (engine/species/doubt.h).
//
// Limits. Known to a cell of the ground. Not asked: how large a station is, whether two animals
// find room at it, what hangs from a roof or a branch, and within a house what stands between its
// door and the station.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::stations {

// m, an arm over or through the barrier; common practice, no source.
inline constexpr double kGuestsReach = 1.0;
inline constexpr double kLampSought = 3.0;  // m; numeric, a limit of work
inline constexpr std::size_t kKinds = 8;    // of the site file; definition

struct StationRow {
  int station = 0;       // index into site.stations
  Vec3 at;               // local coordinates
  bool set_out = true;   // false: not over the thing it is said to be on
  bool reached = false;  // the animal comes to it
  std::string inside;    // it stands in this solid, and is not said to be on it
  double guests_m = std::numeric_limits<double>::infinity();  // infinite where no guest stands
  std::optional<double> clearance_m;                          // of a heat lamp
  bool leapt_at = false;                                      // a heat lamp
};
struct KindRow {
  int drawn = 0;
  int counts = 0;
  double apart_m = std::numeric_limits<double>::infinity();  // infinite for fewer than two
};
struct Result {
  std::vector<StationRow> rows;  // in the site's order
  std::array<KindRow, kKinds> kinds;
  double food_to_water_m = std::numeric_limits<double>::infinity();
  double guests_m = std::numeric_limits<double>::infinity();
  bool guests = false;  // some stand along the boundary
  int in_guests_reach = 0;
  int unreached = 0;          // of the kinds an animal uses
  int unguarded = 0;          // heat lamps nobody says have a guard
  int unguarded_in_leap = 0;  // of those, the animal may leap at
  double lamp_clearance_m = std::numeric_limits<double>::infinity();
};

Result analyse(const Model& model);

// The animal comes to it to use it: all but heat lamps and cameras.
bool is_used(StationKind kind);

}  // namespace hummock::stations
