#include "engine/leap/rows/premises.h"

#include <algorithm>
#include <cmath>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/leap/places/places.h"
#include "engine/leap/rows/notes.h"
#include "engine/leap/rows/rests_on.h"

namespace hummock::leap {
namespace {

bool unsure(const std::string& evidence, const std::string& source) {
  return evidence == "assumed" || evidence == "anecdote" || source.rfind("from memory", 0) == 0 ||
         source.rfind("invented", 0) == 0;
}
template <class T>
bool unsure(const Sourced<T>& figure) {
  return unsure(figure.evidence, figure.source);
}

double between(double used, double careful, double share) {
  return used + share * (careful - used);
}

// A value at which it still holds: in hundredths, rounded towards the used one.
std::string holding(double used, double careful, double value) {
  constexpr double kParts = 100.0;
  const double parts = value * kParts;
  const double kept = careful > used ? std::floor(parts + 1e-6) : std::ceil(parts - 1e-6);
  return plain_figure(kept / kParts);
}

// The leap: both figures in the same proportion unless the file says otherwise.
std::optional<Premise> leap_premise(const Species& s) {
  const double height = s.leap_height.value;
  const auto given = careful_given(s.leap_height);
  if (!given && !unsure(s.leap_height)) return std::nullopt;
  const double careful = given.value_or(kStronger * height);
  const double distance = s.leap_distance.value;
  const double careful_distance =
      careful_given(s.leap_distance).value_or(distance * careful / height);
  Premise p;
  p.about = About::leap;
  p.numeric = true;
  p.told.key = "leap_height";
  p.told.used_value = plain_figure(height) + " m";
  p.told.careful_value = plain_figure(careful) + " m";
  p.told.words = "it leaps less than {} (used " + plain_figure(height) + " m" +
                 (s.leap_height.evidence.empty() ? "" : ", " + s.leap_height.evidence) + ")";
  p.take = [=](Taken& taken, double share) {
    Species& species = taken.species;
    species.leap_height.value = between(height, careful, share);
    species.leap_distance.value = between(distance, careful_distance, share);
  };
  p.value = [=](double share) {
    return holding(height, careful, between(height, careful, share)) + " m";
  };
  return p;
}

// Overhangs hold nothing that goes hand over hand beneath them.
std::optional<Premise> hanging_premise(const Model& model, const Settings& settings) {
  const Species& s = model.site.species;
  const Body body = body_of(s);
  const bool by_default =
      std::find(body.defaults.begin(), body.defaults.end(), "hangs") != body.defaults.end();
  const bool may = by_default || (s.hangs && !s.hangs->value && unsure(*s.hangs)) ||
                   (s.hangs && careful_given(*s.hangs).value_or(false));
  if (body.hangs || settings.climb_inverted || !may) return std::nullopt;
  const auto& climbs = s.climbs.value;
  const bool sheet_above = std::any_of(model.parts.begin(), model.parts.end(), [&](const Part& p) {
    return (p.kind == PartKind::overhang || p.kind == PartKind::roof) &&
           std::find(climbs.begin(), climbs.end(), to_string(p.surface)) != climbs.end();
  });
  if (!sheet_above) return std::nullopt;
  Premise p;
  p.about = About::hanging;
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
  p.about = About::plantings;
  p.told.key = "plantings";
  p.told.used_value = "no step";
  p.told.careful_value = "a step";
  p.told.words = names_of(model, tall) + (tall.size() == 1 ? " does" : " do") + " not bear it";
  p.take = [](Taken& taken, double share) { taken.plantings_bear = share > 0.5; };
  return p;
}

using Number = Sourced<double> Species::*;
struct NumberRow {
  const char* key;
  const char* words;  // {} = the breaking value
  Number member;
  double unit;  // rad for degrees
  const char* suffix;
};
constexpr NumberRow kNumbers[] = {
    {"grip", "it hooks an edge no further than {} up", &Species::grip, 1.0, " m"},
    {"cling_leap", "it leaps from a climbed face with no more than {} of its leap",
     &Species::cling_leap, 1.0, ""},
    {"stand_slope", "it stands on nothing steeper than {}", &Species::stand_slope, geom::kDegree,
     "°"}};

std::optional<Premise> number_premise(const Species& s, const NumberRow& row) {
  const Sourced<double>& figure = s.*row.member;
  const auto careful = careful_given(figure);
  if (!careful || *careful == figure.value) return std::nullopt;
  const auto say = [row](double v) { return plain_figure(v / row.unit) + row.suffix; };
  Premise p;
  p.numeric = true;
  p.told.key = row.key;
  p.told.used_value = say(figure.value);
  p.told.careful_value = say(*careful);
  p.told.words = std::string(row.words) + " (used " + p.told.used_value + ")";
  p.take = [=](Taken& taken, double share) {
    (taken.species.*row.member).value = between(figure.value, *careful, share);
  };
  p.value = [=](double share) {
    const double value = between(figure.value, *careful, share) / row.unit;
    return holding(figure.value / row.unit, *careful / row.unit, value) + row.suffix;
  };
  return p;
}

}  // namespace

std::vector<Premise> premises(const Model& model, const Settings& settings) {
  std::vector<Premise> list;
  const auto add = [&](std::optional<Premise> p) {
    if (p) list.push_back(std::move(*p));
  };
  add(hanging_premise(model, settings));
  add(leap_premise(model.site.species));
  add(planting_premise(model));
  for (const NumberRow& row : kNumbers) add(number_premise(model.site.species, row));
  for (Premise& p : list) {
    take_confirmation(model.site.species, p.told.key, p.told);
    take_confirmation(model.site, p.told.key, p.told);
  }
  return list;
}

}  // namespace hummock::leap
