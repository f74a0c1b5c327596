#include "engine/brief/brief.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "engine/brief/asked.h"
#include "engine/brief/either.h"
#include "engine/brief/given.h"
#include "engine/brief/judge_words.h"
#include "engine/brief/signed.h"
#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

// A figure that misses its limit by less than this share of it is met: 3 × 0.1 must reach 0.3.
constexpr double kRounding = 1e-9;

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

// After the limit itself: how it comes about for these animals and young.
std::string per_in_words(const Requirement& row, const Site& site) {
  const std::string each = limits_in_words(row.at_least, row.at_most);
  const std::string extra = limit_in_words(row.extra.value_or(0.0));
  switch (row.per) {
    case Per::group:
      return "";
    case Per::animal:
      return " (" + each + " for each of " + std::to_string(site.animals) + ")";
    case Per::extra_animal:
      return " (" + each + " for up to " + std::to_string(row.up_to) + ", " + extra +
             " for each further, " + std::to_string(site.animals) + " here)";
    case Per::with_offspring:
      break;
  }
  return " (" + each + " for the grown, " + extra + " for each young, " +
         (site.offspring ? std::to_string(*site.offspring) + " expected" : "how many is not said") +
         ")";
}

std::string required_in_words(const Requirement& row, const BriefRow& out, const Site& site) {
  if (!row.ask.empty()) return "a person's answer";
  if (row.of_words()) return required_words_of(row);
  if (!out.at_least && !out.at_most) return "more the more young" + per_in_words(row, site);
  return limits_in_words(out.at_least, out.at_most) + per_in_words(row, site);
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
  if (!out.at_least && !out.at_most) {
    out.value = figure.value;
    out.note = out.why = "how many young are expected is not said (`offspring` of the site)";
    return;
  }
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
void set_standing(const std::map<std::string, RestsOn>& rests_on, BriefRow& out) {
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
  if (out.standing == Standing::short_of && !out.waiver.empty()) {
    out.standing = Standing::waived;
    out.why = out.waiver;
  }
}

// What a person is to answer.
void judge_answer(const Site& site, const Asked& asked, BriefRow& out) {
  const std::string answer = answer_of(site, asked);
  out.standing = answer.empty() ? Standing::open : Standing::met;
  out.met = answer.empty() ? Met::not_checked : Met::met;
  out.why = answer.empty() ? "nobody has answered it yet" : "confirmed by " + answer;
}

BriefRow row_of(const Site& site, const Asked& asked) {
  const Requirement& row = *asked.row;
  BriefRow out;
  out.what = row.what;
  out.source = row.source;
  out.note = row.note;
  out.must = must_be_met(row);
  out.kind = !row.ask.empty() ? RowKind::ask : row.of_words() ? RowKind::words : RowKind::figure;
  out.key = row.key();
  out.words = row.ask;
  out.asked_by = asked.by;
  out.waiver = waiver_of(site, asked);
  out.when = row.when;
  if (asked.set != nullptr) {
    out.either = asked.either->name;
    out.set = asked.set->name;  // `must` is then of its set; the either has a weight of its own
  }
  const Limits limits = limits_here(row, site);
  out.at_least = limits.low;
  out.at_most = limits.high;
  out.required = required_in_words(row, out, site);
  return out;
}

BriefRow either_row(const Site& site, const AskedEither& asked) {
  BriefRow out;
  out.kind = RowKind::either;
  out.key = out.words = asked.either->name;
  out.must = must_be_met(*asked.either);
  out.asked_by = asked.by;
  out.waiver = waiver_of(site, asked);
  for (const RowSet& set : asked.either->sets) {
    out.required += (out.required.empty() ? "" : ", or ") + set.name;
    out.sets.push_back({set.name, Standing::not_checked, {}});
  }
  return out;
}

BriefRow judge_row(const Site& site, const Asked& asked, const Figures& figures,
                   const std::map<std::string, NotRun>& not_run) {
  BriefRow out = row_of(site, asked);
  if (out.kind == RowKind::ask) {
    judge_answer(site, asked, out);
    return out;
  }
  const auto found = figures.find(out.what);
  if (found != figures.end()) {
    if (out.kind == RowKind::words) {
      judge_words(*asked.row, found->second, out);
    } else {
      judge_figure(found->second, out);
    }
    return out;
  }
  const auto why = not_run.find(out.what.substr(0, out.what.find('.')));
  if (why != not_run.end()) out.not_run = why->second;
  out.note = out.why = why_absent(out.what, not_run);
  return out;
}

// The same figure's limits, both of them no weaker.
bool asks_more(const BriefRow& a, const BriefRow& b) {
  const bool least = !b.at_least || (a.at_least && *a.at_least >= *b.at_least);
  const bool most = !b.at_most || (a.at_most && *a.at_most <= *b.at_most);
  return least && most && (a.at_least != b.at_least || a.at_most != b.at_most);
}

// Outside of sets and asked always, so that it is asked wherever another is.
bool decides(const BriefRow& row) {
  return row.kind == RowKind::figure && row.must && !row.in_set() && !row.when;
}

void say_who_decides(std::vector<BriefRow>& rows) {
  for (BriefRow& row : rows) {
    if (row.kind != RowKind::figure || row.in_set()) continue;
    const BriefRow* strictest = &row;
    for (const BriefRow& other : rows)
      if (other.what == row.what && decides(other) && asks_more(other, *strictest))
        strictest = &other;
    if (strictest != &row) row.stricter = asker_of(*strictest);
  }
}

}  // namespace

std::vector<BriefRow> judge(const Site& site, const Figures& figures,
                            const std::map<std::string, NotRun>& not_run,
                            const std::map<std::string, RestsOn>& rests_on) {
  std::vector<BriefRow> rows;
  const std::vector<Asked> asked = rows_asked(site);
  std::size_t next = 0;
  const auto judge_next = [&] {
    rows.push_back(judge_row(site, asked[next++], figures, not_run));
    if (rows.back().kind != RowKind::ask) set_standing(rests_on, rows.back());
  };
  while (next < asked.size() && asked[next].set == nullptr) judge_next();
  for (const AskedEither& either : eithers_asked(site)) {
    const std::size_t at = rows.size();
    rows.push_back(either_row(site, either));
    for (std::size_t k = 0; k < either.either->sets.size(); ++k) {
      for (std::size_t n = either.either->sets[k].requirements.size(); n > 0; --n) {
        rows[at].sets[k].rows.push_back(rows.size());
        judge_next();
      }
    }
  }
  settle_eithers(rows);
  say_who_decides(rows);
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

}  // namespace hummock
