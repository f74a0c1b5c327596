#include "engine/leap/rows/rests_on.h"

#include <tbb/parallel_invoke.h>

#include <algorithm>
#include <atomic>
#include <map>
#include <optional>

#include "engine/base/input_error.h"
#include "engine/brief/given.h"
#include "engine/leap/rows/premises.h"
#include "engine/leap/search/gets_out.h"

namespace hummock::leap {
namespace {

class Explorer {
 public:
  Explorer(const Model& model, const Settings& settings, const Progress& progress)
      : species_(model.site.species),
        question_(model, at_the_careful_end(settings)),
        progress_(progress) {}

  using Set = std::vector<std::pair<const Premise*, double>>;

  GetsOut ask(const Set& set) {
    if (++solves_ > kMostSolves) return GetsOut::unknown;
    progress_.step("leap: what it rests on", 0.0);
    const auto known = foreseen_.find(set);
    return known != foreseen_.end() ? known->second : solve(question_, set, progress_);
  }

  // The sets that will be asked next, in this order, if nothing ends it before: answered side by
  // side, as many as may still be asked. Two at a time, however many threads there are: each holds
  // places and a search of its own. An answer hangs on its set alone.
  void foresee(const std::vector<Set>& sets) {
    const auto left = static_cast<std::size_t>(std::max(0, kMostSolves - solves_));
    const std::size_t count = std::min(sets.size(), left);
    if (count < 2) return;
    std::vector<std::optional<GetsOut>> answers(count);
    std::atomic<std::size_t> next{0};
    Progress quiet;
    quiet.cancel = progress_.cancel;
    EscapeQuestion other = question_;
    const auto work = [&](EscapeQuestion& question) {
      for (std::size_t k = next++; k < count; k = next++) {
        // What is refused is refused where it is asked, if it is.
        try {
          answers[k] = solve(question, sets[k], quiet);
        } catch (const InputError&) {
        }
      }
    };
    tbb::parallel_invoke([&] { work(question_); }, [&] { work(other); });
    for (std::size_t k = 0; k < count; ++k)
      if (answers[k]) foreseen_.emplace(sets[k], *answers[k]);
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
  GetsOut solve(EscapeQuestion& question, const Set& set, const Progress& progress) const {
    Taken taken{species_};
    for (const auto& [premise, share] : set) premise->take(taken, share);
    return question.ask(taken.species,
                        {taken.plantings_bear, taken.frozen, taken.crowns_bear, taken.walls_rough,
                         taken.helped_indoors, taken.digs, taken.drained},
                        progress);
  }

  // No way out at all is asked there, whatever the brief's margin.
  static Settings at_the_careful_end(Settings settings) {
    settings.search_limit = settings.required_margin = 1.0;
    return settings;
  }

  const Species& species_;
  EscapeQuestion question_;
  const Progress& progress_;
  int solves_ = 0;
  std::map<Set, GetsOut> foreseen_;
};

std::string with_value(const std::string& words, const std::string& value) {
  const std::size_t at = words.find("{}");
  return at == std::string::npos ? words : words.substr(0, at) + value + words.substr(at + 2);
}

// As it is told: with its breaking value, in company of equals by its used one.
Assumption told_at(const Premise& p, double break_share) {
  Assumption a = p.told;
  if (!p.numeric) return a;
  a.breaking_value = p.value(break_share);
  a.words = with_value(a.words, a.breaking_value);
  return a;
}

// One of the two is enough to hold the animal.
Assumption either(const Assumption& a, const Assumption& b) {
  Assumption out = either_of(a, b);
  out.breaking_value = a.breaking_value.empty() ? b.breaking_value : a.breaking_value;
  return out;
}

Assumption told_of_pair(const Premise& a, const Premise& b) {
  const auto as_used = [](const Premise& p) {
    Assumption told = p.told;
    told.words = with_value(told.words, told.used_value);
    return told;
  };
  return either(as_used(a), as_used(b));
}

// Where both figures of the leap grow alike the demand stays as it is (rows/sensitivity.h), so the
// leap at which it gets out is the demand itself.
double leap_break(const Premise& p, const Species& s, const Result& found) {
  if (!p.in_proportion) return -1.0;
  Taken careful{s};
  p.take(careful, 1.0);
  const double span = careful.species.leap_height.value - s.leap_height.value;
  const double need = found.escape_leap_m.value_or(found.bounded_below_m);
  if (span <= 0.0) return -1.0;
  return std::clamp((need - s.leap_height.value) / span, 0.0, 1.0);
}

// What the answer found already says of the stronger leap alone, when it says it.
std::optional<GetsOut> known_answer(const Premise& p, const Species& s, const Result& found) {
  if (!p.in_proportion) return std::nullopt;
  Taken careful{s};
  p.take(careful, 1.0);
  const double has = careful.species.leap_height.value;
  if (found.complete && found.escape_leap_m)
    return *found.escape_leap_m <= has ? GetsOut::yes : GetsOut::no;
  if (found.bounded_below_m > has) return GetsOut::no;
  return std::nullopt;
}

// Seeks the least sets of premises that let it out.
class LeastSets {
 public:
  LeastSets(Explorer& explorer, const Species& species, const Result& found, RestsOn& out)
      : explorer_(explorer), species_(species), found_(found), out_(out) {}

  void run(const std::vector<Premise>& list) {
    std::vector<Explorer::Set> each;
    for (const Premise& p : list)
      if (!known_answer(p, species_, found_)) each.push_back({{&p, 1.0}});
    explorer_.foresee(each);
    for (const Premise& p : list) alone(p);
    in_company();
    in_pairs();
  }

 private:
  bool full() const { return out_.list.size() >= kMostIfs; }

  GetsOut asked(const Explorer::Set& set) {
    const GetsOut answer = explorer_.ask(set);
    if (answer == GetsOut::unknown) out_.explored = false;
    return answer;
  }

  void alone(const Premise& p) {
    const auto known = known_answer(p, species_, found_);
    const GetsOut answer = known ? *known : asked({{&p, 1.0}});
    if (answer == GetsOut::no) hold_.push_back(&p);
    if (answer != GetsOut::yes || full()) return;
    double share = leap_break(p, species_, found_);
    if (p.numeric && share < 0.0) share = explorer_.breaking_share({{&p, 1.0}}, 0);
    out_.list.push_back(told_at(p, share));
    if (p.numeric) breaks_.emplace_back(&p, share);
  }

  // A number that breaks alone may break sooner beside a premise that holds alone.
  void in_company() {
    for (const auto& [p, share] : breaks_) {
      for (const Premise* beside : hold_) {
        if (full() || beside->numeric) continue;
        if (asked({{p, std::max(0.0, share - kWithin)}, {beside, 1.0}}) != GetsOut::yes) continue;
        const double sooner = explorer_.breaking_share({{p, 1.0}, {beside, 1.0}}, 0);
        out_.list.push_back(either(told_at(*beside, 1.0), told_at(*p, sooner)));
      }
    }
  }

  void in_pairs() {
    std::vector<std::pair<const Premise*, const Premise*>> pairs;
    std::vector<Explorer::Set> sets;
    for (std::size_t a = 0; a < hold_.size(); ++a) {
      for (std::size_t b = a + 1; b < hold_.size(); ++b) {
        pairs.emplace_back(hold_[a], hold_[b]);
        sets.push_back({{hold_[a], 1.0}, {hold_[b], 1.0}});
      }
    }
    if (!full()) explorer_.foresee(sets);
    for (std::size_t k = 0; k < pairs.size() && !full(); ++k) {
      if (asked(sets[k]) == GetsOut::yes)
        out_.list.push_back(told_of_pair(*pairs[k].first, *pairs[k].second));
    }
  }

  // Of the span, below the breaking value: that near it is the same one.
  static constexpr double kWithin = 0.05;

  Explorer& explorer_;
  const Species& species_;
  const Result& found_;
  RestsOn& out_;
  std::vector<const Premise*> hold_;                       // alone
  std::vector<std::pair<const Premise*, double>> breaks_;  // alone, from this share on
};

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
  if (together == GetsOut::yes) {
    LeastSets(explorer, model.site.species, found, out).run(list);
  }
  out.explored = out.explored && together != GetsOut::unknown;
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
