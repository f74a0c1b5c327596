#include "engine/leap/rows/premises.h"

#include <algorithm>
#include <cmath>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/leap/passages/through_houses.h"
#include "engine/leap/places/part_faces.h"
#include "engine/leap/places/places.h"
#include "engine/leap/rows/climbing_premise.h"
#include "engine/leap/rows/figure_premises.h"
#include "engine/leap/rows/notes.h"
#include "engine/leap/rows/rests_on.h"
#include "engine/model/climbed.h"

namespace hummock::leap {
namespace {

// Overhangs hold nothing that goes hand over hand beneath them.
std::optional<Premise> hanging_premise(const Model& model, const Settings& settings) {
  const Species& s = model.site.species;
  const Body body = body_of(s);
  const bool by_default =
      std::find(body.defaults.begin(), body.defaults.end(), "hangs") != body.defaults.end();
  const bool may = by_default || (s.hangs && !s.hangs->value && unsure(*s.hangs)) ||
                   (s.hangs && another_says_yes(*s.hangs));
  if (body.hangs || settings.climb_inverted || !may) return std::nullopt;
  const Species climber = climbs_at_most(model);
  const bool sheet_above = std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& p) {
    return (p.kind == PartKind::overhang || p.kind == PartKind::roof) && climbs(climber, p.surface);
  });
  if (!sheet_above) return std::nullopt;
  Premise p;
  p.told.key = "hangs";
  p.told.used_value = "false";
  p.told.careful_value = "true";
  p.told.words = "it does not climb hand over hand beneath an overhang or roof";
  p.take = [](Taken& taken, double share) {
    Sourced<bool> row;
    row.value = share > 0.5;
    row.source = "taken the careful way";
    taken.species.hangs = row;
  };
  return p;
}

// A hedge may bear an animal: nothing of it is known.
std::optional<Premise> planting_premise(const Model& model) {
  const std::vector<int> tall = tall_plantings(model, body_of(model.site.species));
  if (tall.empty()) return std::nullopt;
  Premise p;
  p.told.key = "plantings";
  p.told.used_value = "no step";
  p.told.careful_value = "a step";
  p.told.words = names_of(model, tall) + (tall.size() == 1 ? " does" : " do") + " not bear it";
  p.take = [](Taken& taken, double share) { taken.plantings_bear = share > 0.5; };
  return p;
}

// A crown is air to what climbs no bark: nobody knows what its limbs bear.
std::optional<Premise> crown_premise(const Model& model, const Settings& settings) {
  const std::vector<int> airy = airy_crowns(model, place_rules(model.site.species, settings));
  if (airy.empty()) return std::nullopt;
  const bool one = airy.size() == 1;
  Premise p;
  p.told.key = "crowns";
  p.told.used_value = "no step";
  p.told.careful_value = "a step";
  p.told.words = std::string(one ? "the crown of " : "the crowns of ") + names_of(model, airy) +
                 (one ? " does" : " do") + " not bear it";
  p.take = [](Taken& taken, double share) { taken.crowns_bear = share > 0.5; };
  return p;
}

// The walls of a house whose surface the site file leaves out.
std::optional<Premise> wall_premise(const Model& model, const Settings& settings) {
  const std::vector<int> unsaid = unsaid_walls(model, place_rules(climbs_at_most(model), settings));
  if (unsaid.empty()) return std::nullopt;
  Premise p;
  p.told.key = "walls";
  p.told.used_value = "smooth";
  p.told.careful_value = "of what it climbs";
  p.told.words = "the walls of " + names_of(model, unsaid) + " are smooth";
  p.take = [](Taken& taken, double share) { taken.walls_rough = share > 0.5; };
  return p;
}

// Up to the vents of houses in which, by the file, there is nothing to climb on.
std::optional<Premise> indoors_premise(const Model& model, const Settings& settings) {
  PlaceRules rules = place_rules(model.site.species, settings);
  const Sourced<double>& head = model.site.species.least_opening;
  rules.least_opening = careful_end(head, kSmallerHead).value_or(head.value);
  const std::vector<int> houses = climbed_within(model, rules);
  if (houses.empty()) return std::nullopt;
  std::string names;
  for (const int h : houses)
    names +=
        (names.empty() ? "" : ", ") + quoted(model.site.houses[static_cast<std::size_t>(h)].name);
  Premise p;
  p.told.key = "indoors";
  p.told.used_value = "nothing";
  p.told.careful_value = "a step";
  p.told.words = "nothing inside " + names + " helps it up to its openings";
  p.take = [](Taken& taken, double share) { taken.helped_indoors = share > 0.5; };
  return p;
}

// How far past upright the face leans over that an animal clings to, rad; 0 where it does not.
double leans_over(const Part& part, std::size_t triangle) {
  const auto c = corners_of(part, triangle);
  const double up = geom::unit(cross(c[1] - c[0], c[2] - c[0])).z;
  if (part.kind == PartKind::overhang) return std::asin(std::min(1.0, std::abs(up)));
  return part.closed && up < 0.0 ? std::asin(std::min(1.0, -up)) : 0.0;
}

bool leans_between(const Part& part, double least, double most) {
  for (std::size_t t = 0; t < part.mesh.triangles.size(); ++t) {
    const double lean = leans_over(part, t);
    if (lean > least && lean <= most) return true;
  }
  return false;
}

// Faces that lean over further than is taken for want of a row, and are no standard overhang.
std::optional<Premise> upright_premise(const Model& model, const Settings& settings) {
  const PlaceRules rules = place_rules(climbs_at_most(model), settings);
  const auto& defaults = rules.body.defaults;
  if (std::find(defaults.begin(), defaults.end(), "climbs_past_upright") == defaults.end())
    return std::nullopt;
  const double used = rules.body.climbs_past_upright;
  const bool bears = std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& part) {
    return can_climb(model, rules, part) && leans_between(part, used, kCarefulPastUpright);
  });
  if (!bears) return std::nullopt;
  const auto degrees = [](double v) { return plain_figure(v / geom::kDegree) + "°"; };
  Premise p;
  p.numeric = true;
  p.told.key = "climbs_past_upright";
  p.told.used_value = degrees(used);
  p.told.careful_value = degrees(kCarefulPastUpright);
  p.told.words = "it climbs nothing more than {} past upright (assumed " + degrees(used) + ")";
  p.take = [used](Taken& taken, double share) {
    Sourced<double> row;
    row.value = between(used, kCarefulPastUpright, share);
    row.source = "taken the careful way";
    taken.species.climbs_past_upright = row;
  };
  p.value = [used](double share) {
    const double careful = kCarefulPastUpright / geom::kDegree;
    const double value = between(used / geom::kDegree, careful, share);
    return holding(used / geom::kDegree, careful, value) + "°";
  };
  return p;
}

// Things in a yard stand on its ground: what digs may come out behind them.
std::optional<Premise> digging_premise(const Model& model) {
  const Species& s = model.site.species;
  const double far = careful_end(s.dig_length, kStronger).value_or(s.dig_length.value);
  const double deep = careful_end(s.dig_depth, kStronger).value_or(s.dig_depth.value);
  if (!model.site.leap_start || far <= 0.0 || deep <= 0.0) return std::nullopt;
  Premise p;
  p.told.key = "tunnels";
  p.told.used_value = "none";
  p.told.careful_value = plain_figure(far) + " m";
  p.told.words = "it does not dig beneath what parts the yard";
  p.take = [=](Taken& taken, double share) {
    taken.digs = share > 0.5;
    taken.species.dig_length.value = far;
    taken.species.dig_depth.value = deep;
  };
  return p;
}

// Where nobody has said that the waters stay open.
std::optional<Premise> ice_premise(const Model& model, const Settings& settings) {
  if (settings.ice != Ice::unknown || model.site.waters.empty()) return std::nullopt;
  Premise p;
  p.told.key = "ice";
  p.told.used_value = "open water";
  p.told.careful_value = "ice that bears it";
  p.told.words = "standing water never freezes so that it bears the animal";
  p.take = [](Taken& taken, double share) { taken.frozen = share > 0.5; };
  return p;
}

// Waters that can be emptied, as their keepers will.
std::optional<Premise> drained_premise(const Model& model) {
  Premise p;
  p.told.words = full_waters(model.site);
  if (p.told.words.empty()) return std::nullopt;
  p.told.key = "drained";
  p.told.used_value = "full";
  p.told.careful_value = "empty";
  p.take = [](Taken& taken, double share) { taken.drained = share > 0.5; };
  return p;
}

}  // namespace

std::string full_waters(const Site& site) {
  std::string names;
  int count = 0;
  for (const Water& water : site.waters)
    if (water.drain) names += (count++ > 0 ? ", " : "") + quoted(water.name);
  if (count == 0) return {};
  return names + (count == 1 ? " is" : " are") + " full whenever the animal is in the yard";
}

std::vector<Premise> premises(const Model& model, const Settings& settings) {
  std::vector<Premise> list;
  const auto add = [&](std::optional<Premise> p) {
    if (p) list.push_back(std::move(*p));
  };
  add(hanging_premise(model, settings));
  for (Premise& p : figure_premises(model)) list.push_back(std::move(p));
  add(planting_premise(model));
  add(crown_premise(model, settings));
  add(wall_premise(model, settings));
  add(indoors_premise(model, settings));
  add(upright_premise(model, settings));
  add(ice_premise(model, settings));
  add(drained_premise(model));
  add(digging_premise(model));
  for (Premise& p : list) {
    take_confirmations(model.site, p.told);
  }
  return list;
}

}  // namespace hummock::leap
