#include "engine/first_yard/plan.h"

#include <algorithm>
#include <cmath>

#include "engine/first_yard/needs.h"
#include "engine/species/doubt.h"
#include "engine/species/young.h"

namespace hummock::first_yard {
namespace {

// Shares and lengths of the layout: common practice, no source, and only where the check begins.
constexpr double kSmallest = 24.0;  // m² of any yard
constexpr double kUpToHalf = 2.0;   // sizes are rounded up to half metres
constexpr double kFromWall = 0.6;   // m between things and the fence
constexpr double kGateZone = 2.8;   // m along the north side that stay free for its leaf
constexpr double kHangsFrom = 60.0 * geom::kDegree;  // climbs so far past upright: as if it hung

struct Animal {
  double leap = 0.0, grip = 0.0;  // m, at the careful ends
  double dig = 0.0;               // m, the same
  double head = 0.0;              // m, the same, of the young where they are smaller
  double length = 0.0, width = 0.0, height = 0.0;  // m, the greatest
  bool climbs_mesh = false, hangs = false;
};

template <class Figure>
double careful(const Figure& figure, double share) {
  return careful_end(figure, share).value_or(figure.value);
}

bool may_climb_mesh(const Sourced<std::vector<std::string>>& climbs) {
  const auto has = [](const std::vector<std::string>& list) {
    return std::find(list.begin(), list.end(), "mesh") != list.end();
  };
  if (has(climbs.value) || (climbs.careful && has(*climbs.careful))) return true;
  return std::any_of(climbs.records.begin(), climbs.records.end(),
                     [&](const auto& record) { return has(record.value); });
}

Animal animal_of(const Species& grown) {
  const Species species = young_and_grown(grown);
  Animal a;
  a.leap = careful(species.leap_height, kStrongerLeap);
  a.grip = careful(species.grip, 1.0);
  a.dig = careful(species.dig_depth, kStrongerLeap);
  a.head = careful(species.least_opening, kSmallerHead);
  const auto& body = species.body;
  const auto most = body.careful.value_or(body.value);
  a.length = std::max(body.value[0], most[0]);
  a.width = std::max(body.value[1], most[1]);
  a.height = std::max(body.value[2], most[2]);
  a.climbs_mesh = may_climb_mesh(species.climbs);
  a.hangs = (species.hangs && species.hangs->value) ||
            (species.climbs_past_upright && species.climbs_past_upright->value > kHangsFrom);
  return a;
}

// Rounded up to a step, so that the file reads like one a person wrote.
double rounded_up(double value, double parts) {
  return std::ceil(value * parts - 1e-9) / parts;
}

// The rows, for the animals asked for.
struct Brief {
  const Species& species;
  int animals;
  double least(const char* what) const { return least_asked(species, what, animals).value_or(0.0); }
  std::optional<double> most(const char* what) const { return most_asked(species, what, animals); }
};

void set_mounds(const Brief& brief, const Tuning& tuning, Plan& plan) {
  const double range = brief.least("relief.range_m");
  const double rises = brief.least("relief.rise_count");
  const double sa = brief.least("relief.sa_m");
  const bool not_all_flat = brief.most("relief.flat_share").has_value();
  if (range <= 0.0 && rises <= 0.0 && sa <= 0.0 && !not_all_flat) return;
  plan.mounds = rises > 1.5 ? 2 : 1;
  // The mean deviation of a yard with one mound is a sixth of its height or less.
  plan.mound_h = tuning.heap * std::max({1.15 * range, 6.0 * sa, 0.4});
}

// Walls start where a leap at the careful end and the brief's margin end, from the shelter's top
// where it gains that; the check does the rest.
void set_walls(const Brief& brief, const Animal& animal, const Tuning& tuning, Plan& plan) {
  plan.shelter_h = rounded_up(std::max(1.3 * animal.height, 0.5), 10.0);
  const double margin = std::max(1.0, brief.least("leap.margin"));
  double start = std::max(margin * brief.species.leap_height.value, animal.leap) + animal.grip;
  plan.roofed = tuning.roofed || animal.hangs || brief.least("space.roofed_share") > 0.0 ||
                start + tuning.raise > kTallestOpen;
  const bool gained = plan.shelter_h <= animal.leap + animal.grip;
  if (gained) start = std::max(start, std::min(start + plan.shelter_h, kTallestOpen));
  if (plan.roofed) start = std::max(2.4, 2.0 * animal.height);
  const double air = std::max(brief.least("space.least_headroom_m") + 0.2,
                              brief.least("space.mean_headroom_m") + 0.3);
  const double door = 1.3 * animal.height + 0.4;
  plan.wall = rounded_up(std::max({start, air + plan.mound_h, door, 1.0}), 10.0) + tuning.raise;
  plan.mesh = plan.roofed || !animal.climbs_mesh;
  const double widest =
      std::min(animal.head, brief.most("openings.largest_m").value_or(animal.head));
  plan.aperture = std::max(0.002, std::floor(0.9 * widest * tuning.mesh * 1000.0) / 1000.0);
}

void set_foot(const Animal& animal, const Tuning& tuning, Plan& plan) {
  plan.dig = animal.dig;
  plan.foot = rounded_up(std::max(0.3, animal.dig + 0.2) + tuning.deepen, 10.0);
  plan.liner = plan.foot > kDeepestFooting;
  if (plan.liner) plan.foot = kDeepestFooting + 0.1;  // into the liner
}

double area_of(const Brief& brief, const Plan& plan) {
  const double usable = 1.15 * brief.least("space.usable_area_m2");
  double area = std::max(brief.least("space.plan_area_m2"), usable);
  area = std::max(area, brief.least("space.volume_m3") / plan.wall);
  area += 1.3 * brief.least("water.area_m2");
  const double things = 2.8 * brief.animals * brief.least("shade.hottest_shade_m2_per_animal") +
                        2.0 * brief.least("sight.unseen_area_m2");
  return std::max({1.1 * area, things, kSmallest});
}

// 4 : 3, or as a row on a circle or rectangle wants it.
void set_size(const Brief& brief, const Asked& asked, const Tuning& tuning, Plan& plan) {
  const double area = tuning.room * area_of(brief, plan);
  plan.h = rounded_up(std::sqrt(0.75 * area), kUpToHalf);
  plan.w = rounded_up(area / plan.h, kUpToHalf);
  // The things stand in a band along the north side, as deep as the shelter.
  const double band =
      1.0 + std::sqrt(brief.animals * brief.least("shade.hottest_shade_m2_per_animal"));
  const double circle = 2.0 * brief.least("space.largest_circle_radius_m");
  if (circle > 0.0) {
    plan.h = std::max(plan.h, rounded_up(tuning.room * (circle + band + 1.0), kUpToHalf));
    plan.w = std::max(plan.w, rounded_up(tuning.room * (circle + 2.0), kUpToHalf));
  }
  const double length = brief.least("space.largest_rectangle_length_m");
  plan.w = std::max(plan.w, rounded_up(tuning.room * 1.05 * length, kUpToHalf));
  if (asked.size) {
    plan.w = asked.size->x;
    plan.h = asked.size->y;
  }
  plan.cell = plan.w * plan.h < 200.0 ? 0.1 : plan.w * plan.h < 2000.0 ? 0.2 : 0.5;
}

void set_mound_reach(Plan& plan) {
  const double side = std::min(plan.w, plan.h);
  plan.mound_r = std::min(std::max(2.0 * plan.mound_h, 0.22 * side), 0.32 * side);
}

void set_house(const Brief& brief, const Animal& animal, const Tuning& tuning, Plan& plan) {
  plan.door_h = rounded_up(1.15 * animal.height + 0.1, 100.0);
  // Not lower than the fence: its top must be no step on to it.
  plan.house_h = std::max({2.6, brief.least("houses.height_m"), plan.door_h + 0.3, plan.wall});
  const double floor = tuning.house * 1.05 *
                       std::max({brief.least("houses.floor_m2"),
                                 brief.least("houses.volume_m3") / plan.house_h, 1.0});
  const double along = std::min(rounded_up(std::sqrt(floor), kUpToHalf), plan.h - 1.0);
  // No barn behind a small yard: the row on floor is then short, and told.
  const double deep = std::min(rounded_up(floor / along, kUpToHalf), std::max(20.0, 1.5 * plan.h));
  const double y = std::floor(5.0 * (plan.h - along)) / 10.0;
  plan.house = {plan.w, y, plan.w + deep, y + along};
  plan.door_w = rounded_up(std::min({1.6 * animal.width + 0.1, 1.2, along - 0.2}), 100.0);
  plan.margin = std::max(3.0, deep + 1.0);
  const auto& low = brief.species.outdoor_low;
  plan.low = low && low->value > 5.0 ? 18.0 : 5.0;
}

// A patch of the area at the north side whose east end is at `x2`.
Patch northern(double area, double longest, double deepest, double x2, double y2) {
  const double deep = std::clamp(std::sqrt(area / 1.5), 0.8, std::max(0.8, deepest));
  const double length = std::clamp(area / deep, 0.8, std::max(0.8, longest));
  return {x2 - length, y2 - deep, x2, y2};
}

void set_things(const Brief& brief, const Animal& animal, const Tuning& tuning, Plan& plan) {
  const double asked = brief.animals * brief.least("shade.hottest_shade_m2_per_animal");
  const double deck =
      std::max(1.6 * tuning.shade * asked + 1.0, 1.05 * brief.least("quantities.platform_m2"));
  const double seen = 1.0 - brief.most("sight.seen_share").value_or(1.0);
  const double hidden = tuning.cover * std::max({1.6 * brief.least("sight.unseen_area_m2"),
                                                 1.5 * seen * plan.w * plan.h, 1.0});
  // At noon the shadow falls to the north: so far from the fence that it falls inside.
  const double y = plan.h - kFromWall - 0.5 * plan.shelter_h;
  const double free = plan.w - kGateZone - kFromWall;
  plan.shrubs = northern(hidden, 0.4 * free, 0.45 * plan.h, plan.w - kFromWall, plan.h - kFromWall);
  plan.shelter = northern(deck, 0.6 * free, 0.5 * plan.h, plan.shrubs.x - 0.2, y);
  const double west = kGateZone - plan.shelter.x;
  if (west > 0.0) {  // over the shrubs rather than before the gate
    plan.shelter.x += west;
    plan.shelter.x2 = std::min(plan.shelter.x2 + west, plan.w - kFromWall);
  }
  plan.shrubs_h = rounded_up(std::max(1.4 * animal.height, 0.5), 10.0);
  plan.burrow = asks(brief.species, "burrows.");
  plan.burrow_d = rounded_up(animal.height + 0.05, 100.0);
}

void set_pool(const Brief& brief, const Tuning& tuning, Plan& plan) {
  plan.pool = asks(brief.species, "water.area") || asks(brief.species, "water.deep") ||
              asks(brief.species, "water.climb");
  if (!plan.pool) return;
  const double deepest = brief.most("water.deepest_m").value_or(1e9);
  const double deep = brief.least("water.deepest_m");
  plan.water_depth = std::min(std::max(1.2 * deep, 0.2), 0.8 * deepest);
  plan.water_side = plan.water_depth > 0.3 ? 30.0 : 15.0;
  // So wide that its sides reach the depth.
  const double reach = 2.3 * plan.water_depth / std::tan(plan.water_side * geom::kDegree);
  const double area = tuning.pool * std::max(1.1 * brief.least("water.area_m2"), 1.5);
  const double side = std::max(std::sqrt(area), reach);
  plan.water = {0.9, 0.9, 0.9 + std::min(side, plan.w - 1.8), 0.9 + std::min(side, plan.h - 1.8)};
}

}  // namespace

Plan plan_of(const Species& species, const Asked& asked, const Tuning& tuning) {
  const Brief brief{species, asked.animals};
  const Animal animal = animal_of(species);
  Plan plan;
  set_mounds(brief, tuning, plan);
  set_walls(brief, animal, tuning, plan);
  set_foot(animal, tuning, plan);
  set_size(brief, asked, tuning, plan);
  set_mound_reach(plan);
  plan.window_a = rounded_up(0.3 * plan.w, 10.0);
  plan.window_b = plan.window_a + rounded_up(std::min(3.0, 0.3 * plan.w), 10.0);
  plan.gate_w = std::max(1.2, std::min(2.0, 1.3 * animal.width + 0.2));
  // As high as a low wall: what stands over a lower gate is a beam that people must bend under.
  plan.gate_h = plan.wall <= 2.2 ? plan.wall : 2.1;
  plan.gate_gap = plan.wall <= 2.2 ? 0.0 : 0.005;
  set_house(brief, animal, tuning, plan);
  set_things(brief, animal, tuning, plan);
  set_pool(brief, tuning, plan);
  plan.ask_leap = !asks(species, "leap.margin");
  plan.ask_gates = !asks(species, "entry.gates_short");
  plan.no_room = !asks(species, "space.plan_area_m2") && !asks(species, "space.usable_area_m2") &&
                 !asks(species, "space.outdoor_area_m2");
  return plan;
}

}  // namespace hummock::first_yard
