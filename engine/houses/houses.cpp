#include "engine/houses/houses.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/barrier/barrier.h"
#include "engine/barrier/house_ways.h"
#include "engine/barrier/shared_plans.h"
#include "engine/houses/way_in.h"
#include "engine/usable/living_nodes.h"
#include "geometry/plan/polygon.h"

namespace hummock::houses {
namespace {

double ball_through(const WallOpening& o) {
  const double hole = std::min(o.width, o.height);
  return o.aperture > 0.0 ? std::min(o.aperture, hole) : hole;
}

void check_vents(const House& house, const Species& species, Row& row) {
  for (std::size_t k = 0; k < house.vents.size(); ++k) {
    const WallOpening& vent = house.vents[k];
    const double ball = ball_through(vent);
    if (ball < species.least_opening.value) continue;
    row.vents_guarded = false;
    const std::string name = vent.name.empty() ? fmt::format("vent {}", k + 1) : vent.name;
    row.faults.push_back(
        fmt::format("{} passes a ball of {:.0f} mm, the animal's least opening is {:.0f} mm", name,
                    ball * 1e3, species.least_opening.value * 1e3));
  }
}

void check_door(const House& house, const Species& species, Row& row) {
  if (!house.door) {
    row.faults.emplace_back("no door is drawn: the animal cannot go in");
    return;
  }
  const auto& body = species.body.value;
  if (house.door->width < body[1] || house.door->height < body[2])
    row.faults.push_back(fmt::format(
        "its door of {:.2f} by {:.2f} m is smaller than the animal ({:.2f} m wide, {:.2f} m high)",
        house.door->width, house.door->height, body[1], body[2]));
}

// No turn of its outline takes the body lying, or its walls are lower than it: what no house can do
// without. One that passes may still be too narrow to turn in.
bool too_small(const House& house, const Species& species) {
  const auto& body = species.body.value;
  double across = 0.0;
  for (const Vec2 a : house.outline)
    for (const Vec2 b : house.outline) across = std::max(across, geom::distance(a, b));
  constexpr double kWithin = 1e-3;  // m
  const double widest = 2.0 * geom::largest_inscribed_circle(house.outline, kWithin).radius;
  return across < std::hypot(body[0], body[1]) || widest + 2.0 * kWithin < body[1] ||
         house.height < body[2];
}

// By no piece of its door that opens into the yard.
void check_way_in(const Model& model, const barrier::Chain& chain, bool comes, Row& row) {
  const House& house = model.site.houses[static_cast<std::size_t>(chain.index)];
  if (too_small(house, model.site.species)) {
    row.faults.push_back("it is smaller than the animal: the animal cannot go in");
    return;
  }
  std::optional<std::string> why;
  for (const barrier::Stretch& s : chain.stretches) {
    if (s.kind != barrier::StretchKind::house_door) continue;
    if (s.right.kind == barrier::SpaceKind::outside) continue;
    why = shut_out(model, *house.door, s, comes);
    if (!why) return;
  }
  if (why) row.faults.push_back(*why + ": the animal cannot go in");
}

// The ground's grid in cells no wider than the body, so that a passage as wide is seen; the grid
// itself where they would be too many.
geom::Grid fine_grid(const Model& model) {
  constexpr double kMostNodes = 1e6;  // numeric, a limit of work
  const geom::Grid& g = model.ground.grid;
  const double width = model.site.species.body.value[1];
  const double parts = width > 0.0 ? std::ceil(g.cell / width - 1e-9) : 1.0;
  if (!(parts > 1.0) || static_cast<double>(g.size()) * parts * parts > kMostNodes) return g;
  const int n = static_cast<int>(parts);
  return {g.x0, g.y0, g.cell / n, (g.nx - 1) * n + 1, (g.ny - 1) * n + 1};
}

bool all_entered(const std::vector<std::uint8_t>& entered) {
  return std::all_of(entered.begin(), entered.end(), [](std::uint8_t in) { return in != 0; });
}

// By house: it goes in over its own ground.
std::vector<std::uint8_t> houses_entered(const Model& model) {
  const usable::UsableGround ground(model);
  std::vector<std::uint8_t> entered = usable::find_nodes(model, ground).houses;
  const geom::Grid fine = fine_grid(model);
  if (all_entered(entered) || fine == model.ground.grid) return entered;
  return usable::find_nodes(model, ground, fine).houses;
}

// Of a house whose door the body does not fit that is told, and not that it never comes there.
bool comes_into(const std::vector<std::uint8_t>& entered, const House& house,
                const Species& species, std::size_t index) {
  const bool fits =
      house.door->width >= species.body.value[1] && house.door->height >= species.body.value[2];
  return !fits || entered[index] != 0;
}

// Where the door of a house leads, piece by piece.
struct DoorLeads {
  bool open = false, fenced = false;
};

DoorLeads door_of(const std::vector<barrier::HouseWay>& ways, int house) {
  DoorLeads leads;
  for (const barrier::HouseWay& w : ways) {
    if (w.house != house || w.vent >= 0) continue;
    leads.fenced = leads.fenced || w.fenced;
    leads.open = leads.open || (!w.fenced && w.beyond.kind != barrier::SpaceKind::outside);
  }
  return leads;
}

void check_where_doors_lead(const Model& model, const barrier::Barrier& barrier,
                            std::vector<Row>& rows) {
  const std::vector<std::uint8_t> entered = houses_entered(model);
  const std::vector<barrier::HouseWay> ways = barrier::house_ways(model);
  for (const barrier::Chain& chain : barrier.chains) {
    if (chain.kind != barrier::ChainKind::house) continue;
    const auto house = static_cast<std::size_t>(chain.index);
    if (!model.site.houses[house].door) continue;
    const DoorLeads door = door_of(ways, chain.index);
    if (door.open) {
      const bool comes = comes_into(entered, model.site.houses[house], model.site.species, house);
      check_way_in(model, chain, comes, rows[house]);
      continue;
    }
    if (entered[house] != 0) continue;  // by another way than its door
    rows[house].faults.emplace_back(
        door.fenced ? "the fence stands unbroken before its door: the animal cannot go in"
                    : "its door opens to the outside, not into the yard: the animal cannot go in");
  }
}

void check_cold_without_house(const Species& species, Result& r) {
  if (!r.list.empty() || r.hours_below_low.value_or(0.0) <= 0.0) return;
  r.faults.push_back(fmt::format(
      "{:.0f} of {} hours are below {:.0f} °C, the animal's limit outdoors, and no house is drawn",
      *r.hours_below_low, r.climate_hours, species.outdoor_low->value));
}

void check_warmth(const House& house, const Species& species, Row& row) {
  if (!house.temperature) return;
  row.low_c = (*house.temperature)[0];
  row.high_c = (*house.temperature)[1];
  if (species.outdoor_low && *row.low_c < species.outdoor_low->value)
    row.faults.push_back(
        fmt::format("it holds only {:.0f} °C, the animal's limit outdoors is {:.0f} °C", *row.low_c,
                    species.outdoor_low->value));
}

Row row_of(const House& house, const Site& site) {
  const Species& species = site.species;
  Row row;
  row.name = house.name;
  row.floor_m2 = std::abs(geom::signed_area(house.outline));
  row.height_m = house.height;
  row.volume_m3 = row.floor_m2 * house.height;
  row.hides = house.hides;
  row.climb_places = house.climb_places;
  check_vents(house, species, row);
  check_door(house, species, row);
  check_warmth(house, species, row);
  if (house.light && site.place) row.light = light_range(*house.light, *site.place, kLightYear);
  return row;
}

}  // namespace

Result analyse(const Model& model, const std::vector<ClimateHour>& climate) {
  Result r;
  const Species& species = model.site.species;
  for (const House& house : model.site.houses) {
    r.list.push_back(row_of(house, model.site));
    r.floor_m2 += r.list.back().floor_m2;
    r.volume_m3 += r.list.back().volume_m3;
    r.hides += house.hides;
    r.climb_places += house.climb_places;
  }
  if (!r.list.empty() && !model.outline.empty()) {
    check_where_doors_lead(model, barrier::barrier_of(model), r.list);
    r.shared_plans = barrier::shared_plans(model);
  }
  if (species.outdoor_low) r.outdoor_low_c = species.outdoor_low->value;
  r.climate_hours = climate.size();
  if (climate.empty()) return r;
  r.coldest_c = std::min_element(climate.begin(), climate.end(), [](const auto& a, const auto& b) {
                  return a.temperature_c < b.temperature_c;
                })->temperature_c;
  if (r.outdoor_low_c) {
    r.hours_below_low = 0.0;
    for (const ClimateHour& h : climate)
      if (h.temperature_c < *r.outdoor_low_c) *r.hours_below_low += h.hours;
  }
  check_cold_without_house(species, r);
  return r;
}

}  // namespace hummock::houses
