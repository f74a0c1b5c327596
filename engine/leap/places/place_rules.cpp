// The rules by which places are told: from the species, and the questions asked at a point.
#include <algorithm>

#include "engine/leap/leap.h"
#include "engine/leap/places/places.h"

namespace hummock::leap {

using geom::Vec3;

namespace {

bool among(const std::vector<std::string>& list, const char* item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

// A tree's crown bears what its tree is marked to bear.
bool marked_climbable(const Model& model, const Part& part) {
  if (part.climbable) return true;
  const auto source = static_cast<std::size_t>(part.source);
  return part.kind == PartKind::crown && part.source >= 0 && source < model.site.objects.size() &&
         model.site.objects[source].climbable;
}

// Of the surfaces that the site file could give a house's walls.
bool walls_unsaid(const PlaceRules& rules, const Part& part) {
  if (part.kind != PartKind::house || part.source < 0) return false;
  return (among(rules.climbs, "rock") || among(rules.climbs, "wood") ||
          among(rules.climbs, "bark"));
}

}  // namespace

PlaceRules place_rules(const Species& species, double resolution, bool climb_inverted) {
  PlaceRules rules;
  rules.ability = ability_of(species);
  rules.resolution = std::min(resolution, kCoarsest);
  rules.stand_slope = species.stand_slope.value;
  rules.climbs = species.climbs.value;
  rules.least_opening = species.least_opening.value;
  rules.wade_depth = species.wade_depth.value;
  rules.body = body_of(species);
  rules.climb_inverted = climb_inverted || rules.body.hangs;
  return rules;
}

// Frozen waters are walked on as ground is.
PlaceRules place_rules(const Species& species, const Settings& settings) {
  PlaceRules rules = place_rules(species, settings.resolution, settings.climb_inverted);
  if (settings.ice != Ice::bears) return rules;
  rules.body.swims = true;
  rules.ability.water = rules.body.leap_from_water = 1.0;
  rules.wade_depth = 0.0;
  return rules;
}

std::vector<int> tall_plantings(const Model& model, const Body& body) {
  std::vector<int> tall;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    if (model.parts[k].kind != PartKind::planting) continue;
    const geom::Box3 box = geom::bounds(model.parts[k].mesh);
    if (box.hi.z - box.lo.z > body.crouch) tall.push_back(static_cast<int>(k));
  }
  return tall;
}

double snow_depth(const Model& model) {
  double depth = 0.0;
  for (const Panel& panel : model.panels) {
    if (panel.gate >= 0) continue;
    depth = std::max(depth, geom::height_at(model.ground, panel.a) - panel.foot_a);
    depth = std::max(depth, geom::height_at(model.ground, panel.b) - panel.foot_b);
  }
  constexpr double kRounding = 1e-6;  // m
  return depth > kRounding ? depth : 0.0;
}

namespace {

// The face of a closed thing that a ray upwards leaves by.
bool left_by(const Model& model, const geom::Hit& hit) {
  return hit.id != kGroundId && hit.normal.z > 0.0 &&
         model.parts[static_cast<std::size_t>(hit.id)].closed;
}

// Of a thing that lies flush on another its underside may be met first.
bool left_where_they_meet(const Model& model, Vec3 from, const geom::Hit& met) {
  constexpr double kOneOnOther = 1e-3;  // m
  const std::vector<geom::Hit> hits = model.body_scene->all_hits(
      {from, {0.0, 0.0, 1.0}, std::max(0.0, met.t - kOneOnOther), met.t + kOneOnOther});
  return std::any_of(hits.begin(), hits.end(),
                     [&](const geom::Hit& hit) { return hit.id != met.id && left_by(model, hit); });
}

}  // namespace

bool room_above(const Model& model, Vec3 from, double crouch) {
  const geom::Hit hit = model.body_scene->first_hit({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
  if (!hit || hit.id == kGroundId) return true;
  if (left_by(model, hit) || hit.t < crouch) return false;
  const bool comes_in = model.parts[static_cast<std::size_t>(hit.id)].closed;
  return !comes_in || !left_where_they_meet(model, from, hit);
}

std::vector<int> airy_crowns(const Model& model, const PlaceRules& rules) {
  std::vector<int> crowns;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (part.kind == PartKind::crown && !can_climb(model, rules, part))
      crowns.push_back(static_cast<int>(k));
  }
  return crowns;
}

std::vector<int> unsaid_walls(const Model& model, const PlaceRules& rules) {
  std::vector<int> walls;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    if (walls_unsaid(rules, model.parts[k])) walls.push_back(static_cast<int>(k));
  }
  return walls;
}

bool can_climb(const Model& model, const PlaceRules& rules, const Part& part) {
  if (marked_climbable(model, part)) return true;
  // What bears it bears it at every height: into a hedge that is taller than its leap.
  if (part.kind == PartKind::planting) return rules.plantings_bear;
  if (part.kind == PartKind::crown) return rules.crowns_bear || among(rules.climbs, "bark");
  if (rules.walls_rough && walls_unsaid(rules, part)) return true;
  switch (part.surface) {
    case Surface::mesh:
      return among(rules.climbs, "mesh");
    case Surface::rock:
      return among(rules.climbs, "rock");
    case Surface::wood:
      return among(rules.climbs, "wood");
    case Surface::bark:
      return among(rules.climbs, "bark");
    case Surface::earth:
      return among(rules.climbs, "earth");
    default:
      return false;
  }
}

}  // namespace hummock::leap
