#include "engine/leap/rows/figure_premises.h"

#include <algorithm>
#include <cmath>

#include "engine/barrier/house_ways.h"
#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/leap/rows/climbing_premise.h"
#include "engine/leap/rows/rests_on.h"
#include "engine/species/body.h"
#include "engine/species/young.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::leap {

using geom::Vec3;

double between(double used, double careful, double share) {
  return used + share * (careful - used);
}

std::string holding(double used, double careful, double value, double parts_of_one) {
  const double parts = value * parts_of_one;
  const double kept = careful > used ? std::floor(parts + 1e-6) : std::ceil(parts - 1e-6);
  return plain_figure(kept / parts_of_one);
}

namespace {

// The file's careful value, unless it is of the other side, or what another record says beyond.
std::optional<double> careful_of(const Sourced<double>& figure) {
  return or_record_beyond(figure, careful_on(figure, true), true);
}

// The careful ends of the leap's two figures: where one has none it grows as the other does, since
// they were seen of one animal; where neither has, by kStronger.
struct LeapEnds {
  double height, distance;
};

std::optional<LeapEnds> leap_ends(const Species& s) {
  const double height = s.leap_height.value, distance = s.leap_distance.value;
  const auto high = careful_of(s.leap_height), far = careful_of(s.leap_distance);
  LeapEnds ends{high.value_or(height), far.value_or(distance)};
  if (!high && unsure(s.leap_height)) ends.height = kStronger * height;
  if (!far && ends.height > height)
    ends.distance = distance * ends.height / height;
  else if (!far && unsure(s.leap_distance))
    ends.distance = kStronger * distance;
  if (ends.height <= height && ends.distance <= distance) return std::nullopt;
  return ends;
}

}  // namespace

std::optional<Premise> leap_premise(const Species& s) {
  const auto ends = leap_ends(s);
  if (!ends) return std::nullopt;
  const double height = s.leap_height.value, distance = s.leap_distance.value;
  const bool higher = ends->height > height;
  const Sourced<double>& told = higher ? s.leap_height : s.leap_distance;
  const double careful = higher ? ends->height : ends->distance;
  Premise p;
  p.in_proportion = std::abs(ends->distance / distance - ends->height / height) < 1e-12;
  p.numeric = true;
  p.told.key = higher ? "leap_height" : "leap_distance";
  p.told.used_value = plain_figure(told.value) + " m";
  p.told.careful_value = plain_figure(careful) + " m";
  p.told.words =
      std::string(higher ? "it leaps less than {} (used " : "it leaps less far than {} (used ") +
      p.told.used_value + (told.evidence.empty() ? "" : ", " + told.evidence) + ")";
  p.take = [=, ends = *ends](Taken& taken, double share) {
    taken.species.leap_height.value = between(height, ends.height, share);
    taken.species.leap_distance.value = between(distance, ends.distance, share);
  };
  p.value = [used = told.value, careful](double share) {
    return holding(used, careful, between(used, careful, share)) + " m";
  };
  return p;
}

namespace {

constexpr double kQuarterMore = 1.25;  // common practice, no source
// A figure that is told as nothing may still be a little.
constexpr double kSomeGrip = 0.10;  // m; common practice, no source
constexpr double kSomeCling = 0.5;  // of the leap; common practice, no source
constexpr double kSteepest = 89.0 * geom::kDegree;

using Number = Sourced<double> Species::*;
using Maybe = std::optional<Sourced<double>> Species::*;
struct NumberRow {
  const char* key;
  const char* words;  // {} = the breaking value
  Number member = nullptr;
  Maybe maybe = nullptr;  // of a row that a file may leave out
  double unit = 1.0;      // rad for degrees
  const char* suffix = " m";
  bool more = true;                   // of it lets the animal do more
  double (*careful)(const Species&);  // where nobody has shown the figure and the file gives no end
  bool (*bears)(const Model&) = nullptr;  // such an end is no matter on a site where it does not
};

// Anything that it climbs, at the end of `climbs` that lets it do most.
bool climbs_something(const Model& model) {
  return !climbs_at_most(model).climbs.value.empty() ||
         std::any_of(model.parts.begin(), model.parts.end(),
                     [](const Part& part) { return part.climbable; });
}

bool has_water(const Model& model) {
  return !model.site.waters.empty();
}

double steeper(const Species& s) {
  return std::min(kSteepest, kQuarterMore * s.stand_slope.value);
}

bool has_steep_faces(const Model& model) {
  const Species& s = model.site.species;
  const double from = s.stand_slope.value, to = steeper(s);
  return has_face_between(geom::ground_mesh(model.ground), from, to) ||
         std::any_of(model.parts.begin(), model.parts.end(),
                     [&](const Part& part) { return has_face_between(part.mesh, from, to); });
}

const NumberRow kNumbers[] = {
    {.key = "grip",
     .words = "it hooks an edge no further than {} up",
     .member = &Species::grip,
     .careful = [](const Species& s) { return std::max(kStronger * s.grip.value, kSomeGrip); }},
    {.key = "cling_leap",
     .words = "it leaps from a climbed face with no more than {} of its leap",
     .member = &Species::cling_leap,
     .suffix = "",
     .careful =
         [](const Species& s) {
           return s.cling_leap.value > 0.0 ? std::min(1.0, kStronger * s.cling_leap.value)
                                           : kSomeCling;
         },
     .bears = climbs_something},
    {.key = "stand_slope",
     .words = "it stands on nothing steeper than {}",
     .member = &Species::stand_slope,
     .unit = geom::kDegree,
     .suffix = "°",
     .careful = steeper,
     .bears = has_steep_faces},
    {.key = "crouch",
     .words = "it fits nowhere lower than {}",
     .maybe = &Species::crouch,
     .more = false,
     .careful = [](const Species& s) { return s.least_opening.value; }},
    {.key = "wade_depth",
     .words = "it wades no deeper than {}",
     .member = &Species::wade_depth,
     .careful = [](const Species& s) { return kQuarterMore * s.wade_depth.value; },
     .bears = has_water},
    {.key = "reach",
     .words = "it reaches no edge further than {} off without leaping",
     .maybe = &Species::reach,
     .careful = [](const Species& s) { return s.body.value[0]; }},
    {.key = "perch",
     .words = "it stands on no crest narrower than {}",
     .maybe = &Species::perch,
     .more = false,
     .careful = [](const Species&) { return 0.0; }},
    {.key = "climbs_past_upright",
     .words = "it climbs nothing more than {} past upright",
     .maybe = &Species::climbs_past_upright,
     .unit = geom::kDegree,
     .suffix = "°",
     .careful = [](const Species&) { return kCarefulPastUpright; },
     .bears = climbs_something},
    {.key = "leap_from_water",
     .words = "it leaps from the water with no more than {} of its leap",
     .maybe = &Species::leap_from_water,
     .suffix = "",
     .careful = [](const Species&) { return 1.0; },
     .bears = has_water}};

Sourced<double>* figure_of(Species& s, const NumberRow& row) {
  if (row.member != nullptr) return &(s.*row.member);
  auto& figure = s.*row.maybe;
  return figure ? &*figure : nullptr;
}

// What it is taken to where nobody has shown it, on a site where it bears.
std::optional<double> unshown_end(const Model& model, const Sourced<double>& figure,
                                  const NumberRow& row) {
  if (!unsure(figure) || (row.bears != nullptr && !row.bears(model))) return std::nullopt;
  return row.careful(model.site.species);
}

std::optional<Premise> number_premise(const Model& model, const NumberRow& row) {
  Species s = model.site.species;
  const Sourced<double>* given = figure_of(s, row);
  if (given == nullptr) return std::nullopt;
  const Sourced<double>& figure = *given;
  const auto careful = careful_end(figure, unshown_end(model, figure, row), row.more);
  if (!careful) return std::nullopt;
  const double used = figure.value;
  const auto say = [row](double v) { return plain_figure(v / row.unit) + row.suffix; };
  Premise p;
  p.numeric = true;
  p.told.key = row.key;
  p.told.used_value = say(figure.value);
  p.told.careful_value = say(*careful);
  p.told.words = std::string(row.words) + " (used " + p.told.used_value + ")";
  p.take = [=](Taken& taken, double share) {
    figure_of(taken.species, row)->value = between(used, *careful, share);
  };
  p.value = [=](double share) {
    const double value = between(used, *careful, share) / row.unit;
    return holding(used / row.unit, *careful / row.unit, value) + row.suffix;
  };
  return p;
}

// A way through a house that the head passes at its careful end alone.
bool careful_head_bears(const Model& model, double careful) {
  const Species& s = model.site.species;
  const bool given = careful_given(s.least_opening) || !s.least_opening.records.empty();
  if (given && !s.crouch) return true;
  const std::vector<barrier::HouseWay> ways = barrier::open_ways(model, careful);
  return std::any_of(ways.begin(), ways.end(), [&](const barrier::HouseWay& way) {
    return way.ball < s.least_opening.value;
  });
}

std::optional<Premise> head_premise(const Model& model) {
  constexpr double kParts = 1000.0;  // of a metre, in which its breaking value is told
  const Sourced<double>& head = model.site.species.least_opening;
  const auto careful = careful_end(head, kSmallerHead);
  if (!careful || !careful_head_bears(model, *careful)) return std::nullopt;
  Premise p;
  p.numeric = true;
  p.told.key = "least_opening";
  p.told.used_value = plain_figure(head.value) + " m";
  p.told.careful_value = plain_figure(*careful) + " m";
  p.told.words = std::string(opening_is_of_young(model.site.species) ? "the young's" : "its") +
                 " head passes no less than {} (used " + p.told.used_value + ")";
  p.take = [used = head.value, careful = *careful](Taken& taken, double share) {
    taken.species.least_opening.value = between(used, careful, share);
  };
  p.value = [used = head.value, careful = *careful](double share) {
    return holding(used, careful, between(used, careful, share), kParts) + " m";
  };
  return p;
}

std::optional<Premise> swimming_premise(const Model& model) {
  const auto& swims = model.site.species.swims;
  if (!swims || swims->value || model.site.waters.empty()) return std::nullopt;
  if (!unsure(*swims) && !another_says_yes(*swims)) return std::nullopt;
  Premise p;
  p.told.key = "swims";
  p.told.used_value = "false";
  p.told.careful_value = "true";
  p.told.words = "it does not swim";
  p.take = [](Taken& taken, double share) { taken.species.swims->value = share > 0.5; };
  return p;
}

}  // namespace

bool another_says_yes(const Sourced<bool>& figure) {
  return std::any_of(figure.records.begin(), figure.records.end(),
                     [](const Sourced<bool>& record) { return record.value; });
}

std::vector<Premise> figure_premises(const Model& model) {
  const Species& species = model.site.species;
  std::vector<Premise> list;
  const auto add = [&](std::optional<Premise> p) {
    if (p) list.push_back(std::move(*p));
  };
  add(leap_premise(species));
  for (const NumberRow& row : kNumbers) add(number_premise(model, row));
  add(head_premise(model));
  add(climbing_premise(model));
  add(swimming_premise(model));
  return list;
}

}  // namespace hummock::leap
