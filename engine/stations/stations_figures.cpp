// The catalogue rows of stations.
#include <fmt/format.h>

#include "engine/stations/stations_json.h"

namespace hummock::stations {
namespace {

// "food station", "water bowl", …
std::string called(std::size_t kind) {
  switch (static_cast<StationKind>(kind)) {
    case StationKind::food:
      return "food station";
    case StationKind::enrichment:
      return "place of enrichment";
    case StationKind::water_bowl:
    case StationKind::water_point:
    case StationKind::sunning_rock:
    case StationKind::heat_lamp:
    case StationKind::scale:
    case StationKind::camera:
      break;
  }
  return word_of(kind);
}
std::string several(std::size_t kind) {
  return static_cast<StationKind>(kind) == StationKind::enrichment ? "places of enrichment"
                                                                   : called(kind) + "s";
}

void add_kind_rows(std::size_t k, FigureRows& rows) {
  const std::string key = "stations." + key_of(k);
  const bool used = is_used(static_cast<StationKind>(k));
  rows.push_back(
      {key + "_count", several(k), "", 0, Better::more,
       used ? "How many are set out that the animal comes to." : "How many are set out."});
  if (used)
    rows.push_back({key + "_per_animal", several(k) + " for each animal", "", 2, Better::more,
                    "The same over the number of animals."});
  rows.push_back({key + "_apart_m", "least distance between two " + several(k), "m", 2,
                  Better::more,
                  "On plan, whether the animal comes to them or not; none for fewer than two."});
}

FigureRows made_rows() {
  FigureRows rows;
  for (std::size_t k = 0; k < kKinds; ++k) add_kind_rows(k, rows);
  rows.push_back({"stations.unreached_count", "stations the animal does not come to", "", 0,
                  Better::less,
                  "Stations of the kinds it uses that no place of its own is within reach of; heat "
                  "lamps and cameras are none of them."});
  rows.push_back({"stations.food_to_water_m", "least distance between food and water", "m", 2,
                  Better::more,
                  "On plan, between a food station and a water bowl or water point; pools are not "
                  "asked."});
  rows.push_back({"stations.to_guests_m", "least distance of a station to guests", "m", 2,
                  Better::more,
                  "On plan, to the nearest stretch of the boundary behind which guests stand, "
                  "whatever fence stands there; none where nobody says where guests stand."});
  rows.push_back({"stations.in_guests_reach_count", "stations in reach of guests", "", 0,
                  Better::less,
                  fmt::format("Stations nearer than {:g} m to such a stretch.", kGuestsReach)});
  rows.push_back({"stations.unguarded_lamps_count", "heat lamps without a guard", "", 0,
                  Better::less, "Heat lamps of which no guard is said."});
  rows.push_back(
      {"stations.unguarded_lamps_in_leap_count", "heat lamps without a guard that it may leap at",
       "", 0, Better::less,
       "Of those, the lamps that a leap passes from any place where the animal might be, "
       "whatever stands between."});
  rows.push_back({"stations.lamp_clearance_m", "least clearance of a heat lamp", "m", 2,
                  Better::more,
                  fmt::format("From its lowest point to the animal stretched up wherever it might "
                              "be, on any ground, top or climbed face, without a leap; at most "
                              "{:g} m is told.",
                              kLampSought)});
  return rows;
}

}  // namespace

const FigureRows& figure_rows() {
  static const FigureRows rows = made_rows();
  return rows;
}

}  // namespace hummock::stations
