#include "engine/leap/rows/rests_on.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/leap/search/gets_out.h"
#include "engine/species/body.h"

namespace hummock::leap {
namespace {

// One thing taken for granted. `take` sets it `share` of the way from the used value (0) to the
// careful one (1).
enum class About { leap, hanging, another };
struct Premise {
  About about = About::another;
  Assumption told;
  bool numeric = false;
  std::function<void(Species&, double share)> take;
  std::function<std::string(double share)> value;  // at that share, in words
};

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
  p.take = [=](Species& species, double share) {
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
  p.take = [](Species& species, double share) {
    Sourced<bool> row;
    row.value = share > 0.5;
    row.source = "taken the careful way";
    species.hangs = row;
  };
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
  p.take = [=](Species& species, double share) {
    (species.*row.member).value = between(figure.value, *careful, share);
  };
  p.value = [=](double share) {
    const double value = between(figure.value, *careful, share) / row.unit;
    return holding(figure.value / row.unit, *careful / row.unit, value) + row.suffix;
  };
  return p;
}

std::vector<Premise> premises(const Model& model, const Settings& settings) {
  std::vector<Premise> list;
  const auto add = [&](std::optional<Premise> p) {
    if (p) list.push_back(std::move(*p));
  };
  add(hanging_premise(model, settings));
  add(leap_premise(model.site.species));
  for (const NumberRow& row : kNumbers) add(number_premise(model.site.species, row));
  for (Premise& p : list) {
    take_confirmation(model.site.species, p.told.key, p.told);
    take_confirmation(model.site, p.told.key, p.told);
  }
  return list;
}

class Explorer {
 public:
  Explorer(const Model& model, const Settings& settings, const Progress& progress)
      : species_(model.site.species),
        question_(model, at_the_careful_end(settings)),
        progress_(progress) {}

  using Set = std::vector<std::pair<const Premise*, double>>;

  GetsOut ask(const Set& set) {
    if (++solves_ > kMostSolves) return GetsOut::unknown;
    Species species = species_;
    for (const auto& [premise, share] : set) premise->take(species, share);
    progress_.step("leap: what it rests on", 0.0);
    return question_.ask(species, progress_);
  }

  // The greatest share at which it still holds, the others of `set` taken in full.
  double breaking_share(Set set, std::size_t which) {
    double holds = 0.0, breaks = 1.0;
    for (int k = 0; k < 4; ++k) {
      const double middle = 0.5 * (holds + breaks);
      set[which].second = middle;
      const GetsOut answer = ask(set);
      if (answer == GetsOut::unknown) break;
      (answer == GetsOut::no ? holds : breaks) = middle;
    }
    return holds;
  }

 private:
  // No way out at all is asked there, whatever the brief's margin.
  static Settings at_the_careful_end(Settings settings) {
    settings.search_limit = settings.required_margin = 1.0;
    return settings;
  }

  const Species& species_;
  EscapeQuestion question_;
  const Progress& progress_;
  int solves_ = 0;
};

std::string with_value(const std::string& words, const std::string& value) {
  const std::size_t at = words.find("{}");
  return at == std::string::npos ? words : words.substr(0, at) + value + words.substr(at + 2);
}

// As it is told: alone with its breaking value, in company by its used one.
Assumption told_of(Explorer& explorer, const Premise& p, double known_break) {
  Assumption a = p.told;
  if (!p.numeric) return a;
  const double share = known_break >= 0.0 ? known_break : explorer.breaking_share({{&p, 1.0}}, 0);
  a.breaking_value = p.value(share);
  a.words = with_value(a.words, a.breaking_value);
  return a;
}

Assumption told_of_pair(const Premise& a, const Premise& b) {
  Assumption out;
  const auto words = [](const Premise& p) { return with_value(p.told.words, p.told.used_value); };
  out.key = a.told.key + "+" + b.told.key;
  out.words = words(a) + ", or " + words(b);
  out.used_value = a.told.used_value + ", " + b.told.used_value;
  out.careful_value = a.told.careful_value + ", " + b.told.careful_value;
  // One of the two is enough to hold the animal.
  const Assumption& sure = a.told.confirmed() ? a.told : b.told;
  out.confirmed_by = sure.confirmed_by;
  out.confirmed_on = sure.confirmed_on;
  return out;
}

// Where both figures of the leap grow alike the demand stays as it is (rows/sensitivity.h), so the
// leap at which it gets out is the demand itself.
double leap_break(const Premise& p, const Species& s, const Result& found) {
  if (p.about != About::leap || careful_given(s.leap_distance)) return -1.0;
  Species careful = s;
  p.take(careful, 1.0);
  const double span = careful.leap_height.value - s.leap_height.value;
  const double need = found.escape_leap_m.value_or(found.bounded_below_m);
  if (span <= 0.0) return -1.0;
  return std::clamp((need - s.leap_height.value) / span, 0.0, 1.0);
}

// What the answer found already says of the stronger leap alone, when it says it.
std::optional<GetsOut> known_answer(const Premise& p, const Species& s, const Result& found) {
  if (p.about != About::leap || careful_given(s.leap_distance)) return std::nullopt;
  Species careful = s;
  p.take(careful, 1.0);
  const double has = careful.leap_height.value;
  if (found.complete && found.escape_leap_m)
    return *found.escape_leap_m <= has ? GetsOut::yes : GetsOut::no;
  if (found.bounded_below_m > has) return GetsOut::no;
  return std::nullopt;
}

void find_least_sets(Explorer& explorer, const std::vector<Premise>& list, const Species& species,
                     const Result& found, RestsOn& out) {
  std::vector<const Premise*> hold_alone;
  for (const Premise& p : list) {
    const auto known = known_answer(p, species, found);
    const GetsOut answer = known ? *known : explorer.ask({{&p, 1.0}});
    if (answer == GetsOut::unknown) out.explored = false;
    if (answer == GetsOut::no) hold_alone.push_back(&p);
    if (answer == GetsOut::yes && out.list.size() < kMostIfs) {
      out.list.push_back(told_of(explorer, p, leap_break(p, species, found)));
    }
  }
  for (std::size_t a = 0; a < hold_alone.size(); ++a) {
    for (std::size_t b = a + 1; b < hold_alone.size() && out.list.size() < kMostIfs; ++b) {
      const GetsOut answer = explorer.ask({{hold_alone[a], 1.0}, {hold_alone[b], 1.0}});
      if (answer == GetsOut::unknown) out.explored = false;
      if (answer == GetsOut::yes) out.list.push_back(told_of_pair(*hold_alone[a], *hold_alone[b]));
    }
  }
}

}  // namespace

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress) {
  RestsOn out;
  out.figures = {"leap.margin", "leap.escape_demand_m", "leap.bounded_below_m", "leap.ways_out",
                 "leap.effort_to_boundary_m"};
  const double H = model.site.species.leap_height.value;
  if (found.escape_leap_m && *found.escape_leap_m <= H) return out;  // nothing is met
  const std::vector<Premise> list = premises(model, settings);
  if (list.empty()) return out;
  Explorer explorer(model, settings, progress);
  Explorer::Set all;
  for (const Premise& p : list) all.emplace_back(&p, 1.0);
  const auto known =
      list.size() == 1 ? known_answer(list[0], model.site.species, found) : std::nullopt;
  const GetsOut together = known ? *known : explorer.ask(all);
  if (together == GetsOut::no) return out;
  if (together == GetsOut::yes) find_least_sets(explorer, list, model.site.species, found, out);
  out.explored = out.explored && together != GetsOut::unknown;
  // Out with everything together, and no set of one or two does it: said as what it is.
  if (out.list.empty()) {
    Assumption whole;
    for (const Premise& p : list) {
      whole.key += (whole.key.empty() ? "" : "+") + p.told.key;
      whole.words +=
          (whole.words.empty() ? "" : ", or ") + with_value(p.told.words, p.told.used_value);
    }
    out.list.push_back(whole);
  }
  if (!out.explored) out.why_not = "what else it rests on was not explored to the end";
  return out;
}

}  // namespace hummock::leap
