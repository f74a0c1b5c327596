#include "engine/leap/rows/rests_on.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/brief/given.h"
#include "engine/leap/rows/premises.h"
#include "engine/species/body.h"

namespace hummock::leap {
namespace {

enum class Answer { holds, out, unknown };

// Only whether it gets out is asked: no advice on what to move.
template <class S>
void leave_out_remedies(S& settings) {
  if constexpr (requires { settings.remedies; }) settings.remedies = false;
}

class Explorer {
 public:
  Explorer(const Model& model, const Settings& settings, const Progress& progress)
      : model_(model), settings_(settings), progress_(progress) {
    settings_.search_limit = 1.0;
    settings_.required_margin = 1.0;
    leave_out_remedies(settings_);
  }

  using Set = std::vector<std::pair<const Premise*, double>>;

  Answer ask(const Set& set) {
    if (++solves_ > kMostSolves) return Answer::unknown;
    Model careful = model_;
    Species& species = careful.site.species;
    Settings settings = settings_;
    for (const auto& [premise, share] : set) {
      premise->take(species, share);
      if (premise->frozen) settings.ice = Ice::bears;
    }
    settings.climb_inverted |= body_of(species).hangs;
    progress_.step("leap: what it rests on", 0.0);
    const Result r = analyse(careful, settings, progress_);
    if (r.escape_leap_m && *r.escape_leap_m <= species.leap_height.value) return Answer::out;
    return r.complete ? Answer::holds : Answer::unknown;
  }

  // The greatest share at which it still holds, the others of `set` taken in full.
  double breaking_share(Set set, std::size_t which) {
    double holds = 0.0, breaks = 1.0;
    for (int k = 0; k < 4; ++k) {
      const double middle = 0.5 * (holds + breaks);
      set[which].second = middle;
      const Answer answer = ask(set);
      if (answer == Answer::unknown) break;
      (answer == Answer::holds ? holds : breaks) = middle;
    }
    return holds;
  }

 private:
  const Model& model_;
  Settings settings_;
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
  if (p.told.key != "leap_height" || careful_given(s.leap_distance)) return -1.0;
  Species careful = s;
  p.take(careful, 1.0);
  const double span = careful.leap_height.value - s.leap_height.value;
  const double need = found.escape_leap_m.value_or(found.bounded_below_m);
  if (span <= 0.0) return -1.0;
  return std::clamp((need - s.leap_height.value) / span, 0.0, 1.0);
}

// What the answer found already says of the stronger leap alone, when it says it.
std::optional<Answer> known_answer(const Premise& p, const Species& s, const Result& found) {
  if (p.told.key != "leap_height" || careful_given(s.leap_distance)) return std::nullopt;
  Species careful = s;
  p.take(careful, 1.0);
  const double has = careful.leap_height.value;
  if (found.complete && found.escape_leap_m)
    return *found.escape_leap_m <= has ? Answer::out : Answer::holds;
  if (found.bounded_below_m > has) return Answer::holds;
  return std::nullopt;
}

void find_least_sets(Explorer& explorer, const std::vector<Premise>& list, const Species& species,
                     const Result& found, RestsOn& out) {
  std::vector<const Premise*> hold_alone;
  for (const Premise& p : list) {
    const auto known = known_answer(p, species, found);
    const Answer answer = known ? *known : explorer.ask({{&p, 1.0}});
    if (answer == Answer::unknown) out.explored = false;
    if (answer == Answer::holds) hold_alone.push_back(&p);
    if (answer == Answer::out && out.list.size() < kMostIfs) {
      out.list.push_back(told_of(explorer, p, leap_break(p, species, found)));
    }
  }
  for (std::size_t a = 0; a < hold_alone.size(); ++a) {
    for (std::size_t b = a + 1; b < hold_alone.size() && out.list.size() < kMostIfs; ++b) {
      const Answer answer = explorer.ask({{hold_alone[a], 1.0}, {hold_alone[b], 1.0}});
      if (answer == Answer::unknown) out.explored = false;
      if (answer == Answer::out) out.list.push_back(told_of_pair(*hold_alone[a], *hold_alone[b]));
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
  const Answer together = known ? *known : explorer.ask(all);
  if (together == Answer::holds) return out;
  if (together == Answer::out) find_least_sets(explorer, list, model.site.species, found, out);
  out.explored = out.explored && together != Answer::unknown;
  // Out with everything together, and no set of one or two does it: said as what it is.
  if (out.list.empty()) {
    Assumption whole;
    for (const Premise& p : list) {
      whole.key += (whole.key.empty() ? "" : "+") + p.told.key;
      whole.words +=
          (whole.words.empty() ? "" : ", or ") + with_value(p.told.words, p.told.used_value);
      // One of them is enough to hold the animal.
      if (whole.confirmed() || !p.told.confirmed()) continue;
      whole.confirmed_by = p.told.confirmed_by;
      whole.confirmed_on = p.told.confirmed_on;
    }
    out.list.push_back(whole);
  }
  if (!out.explored) out.why_not = "what else it rests on was not explored to the end";
  return out;
}

}  // namespace hummock::leap
