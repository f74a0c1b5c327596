#include "engine/brief/brief.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "engine/brief/given.h"
#include "engine/brief/limits.h"
#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

// A figure that misses its limit by less than this share of it is met: 3 × 0.1 must reach 0.3.
constexpr double kRounding = 1e-9;

// A limit of the requirement for this many animals.
double for_animals(const Requirement& row, double limit, int animals) {
  if (row.per == Per::animal) return limit * animals;
  if (row.per == Per::group) return limit;
  return limit + row.extra.value_or(0.0) * std::max(0, animals - row.up_to);
}

// Nine digits: 3 × 0.1 is said as 0.3.
std::string limit_in_words(double limit) {
  char text[32];
  std::snprintf(text, sizeof text, "%.9g", limit);
  return plain_number(std::strtod(text, nullptr));
}

std::string limits_in_words(const std::optional<double>& at_least,
                            const std::optional<double>& at_most) {
  if (at_least && at_most) return limit_in_words(*at_least) + " to " + limit_in_words(*at_most);
  if (at_least) return "at least " + limit_in_words(*at_least);
  return "at most " + limit_in_words(at_most.value_or(0.0));
}

std::string required_in_words(const Requirement& row, const BriefRow& out, int animals) {
  std::string words = limits_in_words(out.at_least, out.at_most);
  if (row.per == Per::group) return words;
  const std::string each = limits_in_words(row.at_least, row.at_most);
  if (row.per == Per::animal) {
    return words + " (" + each + " for each of " + std::to_string(animals) + ")";
  }
  return words + " (" + each + " for up to " + std::to_string(row.up_to) + ", " +
         limit_in_words(row.extra.value_or(0.0)) + " for each further, " + std::to_string(animals) +
         " here)";
}

// Distance to the limit, 0 when it is only missed by rounding.
double margin_to(double distance, double limit) {
  const bool rounding = distance < 0.0 && distance >= -kRounding * std::abs(limit);
  return rounding ? 0.0 : distance;
}

void judge_number(double value, BriefRow& out) {
  std::optional<double> margin;
  if (out.at_least) margin = margin_to(value - *out.at_least, *out.at_least);
  if (out.at_most) {
    const double above = margin_to(*out.at_most - value, *out.at_most);
    margin = margin ? std::min(*margin, above) : above;
  }
  out.value = value;
  out.margin = margin;
  out.met = margin && *margin >= 0.0 ? Met::met : Met::short_of;
}

std::string why_absent(const std::string& what, const std::map<std::string, NotRun>& not_run) {
  const auto reason = not_run.find(what.substr(0, what.find('.')));
  return reason != not_run.end() ? to_string(reason->second)
                                 : "no figure of this name in the results";
}

// A figure known only to be at least `bound`.
void judge_bound(double bound, const std::string& why, BriefRow& out) {
  const bool meets_least = !out.at_least || bound >= *out.at_least;
  const std::string known = "at least " + limit_in_words(bound) + " (" + why + ")";
  out.why = known;
  if (out.at_most && bound > *out.at_most) {
    out.met = Met::short_of;
  } else if (!out.at_most && meets_least) {
    out.met = Met::met;
    out.margin = bound - *out.at_least;
    out.where = known;
  } else {
    out.note = "known only to be " + known;
  }
}

void judge_not_proven(const Figure& figure, BriefRow& out) {
  out.outcome = figure.outcome == Outcome::proven ? Outcome::bounded : figure.outcome;
  out.value = figure.value;
  if (figure.bounded_below) {
    judge_bound(*figure.bounded_below, figure.why.empty() ? "searched no further" : figure.why,
                out);
  } else {
    out.why = figure.why;
    out.note = figure.why;
  }
}

void judge_figure(const Figure& figure, BriefRow& out) {
  out.where = figure.where;
  out.outcome = Outcome::proven;
  const bool bounded = figure.unbounded && figure.bounded_below.has_value();
  if (bounded || figure.outcome != Outcome::proven) {
    judge_not_proven(figure, out);
  } else if (figure.unbounded || (figure.value && std::isinf(*figure.value) && *figure.value > 0)) {
    out.met = out.at_most ? Met::short_of : Met::met;
  } else if (!figure.value || !std::isfinite(*figure.value)) {
    out.outcome = Outcome::not_run;
    out.note = out.why = "the figure has no value on this site";
  } else {
    judge_number(*figure.value, out);
  }
}

// That of the analysis, or of those beside it, which speaks of the figure; nullptr: none does.
const RestsOn* that_speaks_of(const RestsOn& rests, const std::string& key) {
  if (std::find(rests.figures.begin(), rests.figures.end(), key) != rests.figures.end())
    return &rests;
  for (const RestsOn& beside : rests.besides)
    if (const RestsOn* found = that_speaks_of(beside, key)) return found;
  return nullptr;
}

// From met, short or not checked to how the row stands.
void set_standing(const Site& site, const std::map<std::string, RestsOn>& rests_on, BriefRow& out) {
  out.standing = out.met == Met::met        ? Standing::met
                 : out.met == Met::short_of ? Standing::short_of
                                            : Standing::not_checked;
  const auto of_analysis = rests_on.find(out.what.substr(0, out.what.find('.')));
  const RestsOn* rests =
      of_analysis == rests_on.end() ? nullptr : that_speaks_of(of_analysis->second, out.what);
  if (out.met == Met::met && rests != nullptr) {
    out.ifs = rests->list;
    const bool sure = std::all_of(out.ifs.begin(), out.ifs.end(),
                                  [](const Assumption& a) { return a.confirmed(); });
    if (!sure) out.standing = Standing::met_if;
    if (!rests->explored && out.why.empty()) out.why = rests->why_not;
  }
  const std::string waived = waiver_of(site, out.what);
  if (out.standing == Standing::short_of && !waived.empty()) {
    out.standing = Standing::waived;
    out.why = waived;
  }
}

BriefRow judge_row(const Requirement& row, int animals, const Figures& figures,
                   const std::map<std::string, NotRun>& not_run) {
  BriefRow out;
  out.what = row.what;
  out.source = row.source;
  out.note = row.note;
  out.must = must_be_met(row);
  if (row.at_least) out.at_least = for_animals(row, *row.at_least, animals);
  if (row.at_most) out.at_most = for_animals(row, *row.at_most, animals);
  out.required = required_in_words(row, out, animals);
  const auto found = figures.find(row.what);
  if (found != figures.end()) {
    judge_figure(found->second, out);
    return out;
  }
  const auto why = not_run.find(row.what.substr(0, row.what.find('.')));
  if (why != not_run.end()) out.not_run = why->second;
  out.note = out.why = why_absent(row.what, not_run);
  return out;
}

}  // namespace

Limits limits_for(const Requirement& row, int animals) {
  Limits out;
  if (row.at_least) out.low = for_animals(row, *row.at_least, animals);
  if (row.at_most) out.high = for_animals(row, *row.at_most, animals);
  return out;
}

std::vector<BriefRow> judge(const Site& site, const Figures& figures,
                            const std::map<std::string, NotRun>& not_run,
                            const std::map<std::string, RestsOn>& rests_on) {
  std::vector<BriefRow> rows;
  for (const auto* list : {&site.species.requirements, &site.requirements}) {
    for (const Requirement& row : *list) {
      rows.push_back(judge_row(row, site.animals, figures, not_run));
      set_standing(site, rests_on, rows.back());
    }
  }
  return rows;
}

std::optional<double> most_asked_and_met(const Site& site, const std::string& key, double value) {
  Figure figure;
  figure.value = value;
  std::optional<double> most;
  for (const BriefRow& row : judge(site, {{key, figure}}, {}, {})) {
    if (row.what != key || row.met != Met::met || !row.at_least) continue;
    most = std::max(most.value_or(*row.at_least), *row.at_least);
  }
  return most;
}

bool stands_in_the_way(const BriefRow& row) {
  if (!row.must || row.not_run == NotRun::not_asked) return false;
  return row.standing != Standing::met && row.standing != Standing::waived;
}

const char* to_string(Standing standing) {
  switch (standing) {
    case Standing::met:
      return "met";
    case Standing::met_if:
      return "met_if";
    case Standing::met_as_drawn:
      return "met_as_drawn";
    case Standing::short_of:
      return "short";
    case Standing::not_checked:
      return "not_checked";
    case Standing::open:
      return "open";
    case Standing::waived:
      return "waived";
  }
  return "";
}

const char* in_words(Standing standing) {
  switch (standing) {
    case Standing::met_if:
      return "met, if";
    case Standing::met_as_drawn:
      return "met as drawn";
    case Standing::not_checked:
      return "not checked";
    case Standing::met:
    case Standing::short_of:
    case Standing::open:
    case Standing::waived:
      break;
  }
  return to_string(standing);
}

const char* to_string(Met met) {
  if (met == Met::met) return "met";
  return met == Met::short_of ? "short" : "not checked";
}

}  // namespace hummock
