// What the program says of a trial's yard, and how that sits with what happened.
#include <fmt/format.h>

#include "engine/check/check.h"
#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"
#include "tests/trials/trials.h"

namespace hummock::trials {
namespace {

const BriefRow& margin_row(const CheckResults& results) {
  for (const BriefRow& row : results.brief) {
    if (row.what == "leap.margin") return row;
  }
  throw std::runtime_error("the animal's file asks no leap.margin");
}

std::string held_words(const CheckResults& results, const BriefRow& row, double leap) {
  const leap::Result& r = *results.leap;
  const double least = r.escape_leap_m.value_or(r.bounded_below_m);
  std::string words = fmt::format("held: needs {}{:.2f} m of {:.2f} m",
                                  r.escape_leap_m ? "" : "more than ", least, leap);
  for (const Assumption& a : row.ifs) words += "; if " + a.words;
  if (row.standing != Standing::met && row.standing != Standing::met_if) {
    words += std::string("; ") + in_words(row.standing);
  }
  return words;
}

std::string out_words(const leap::Result& r, double leap) {
  constexpr double kNoLeap = 0.005;  // m, what is told as none
  if (*r.escape_leap_m < kNoLeap) return "a way out without a leap, " + r.how;
  return fmt::format("a way out: {:.2f} m of {:.2f} m, {}", *r.escape_leap_m, leap, r.how);
}

const char* in_words(Fit fit) {
  if (fit == Fit::fits) return "fits";
  return fit == Fit::careful_miss ? "miss, careful" : "**miss, calm**";
}

}  // namespace

Verdict verdict_of(const Trial& trial) {
  const std::filesystem::path file = std::filesystem::path(tests::source_dir()) /
                                     "tests/trials/yards" / (trial.yard + ".site.toml");
  const Model model = build_model(read_site(file));
  CheckOptions options;
  options.only = {"leap"};
  const CheckResults results = run_check(model, options);
  const double leap = model.site.species.leap_height.value;
  const BriefRow& row = margin_row(results);
  Verdict verdict;
  verdict.way_out = results.leap->escape_leap_m && *results.leap->escape_leap_m <= leap;
  verdict.words = verdict.way_out ? out_words(*results.leap, leap) : held_words(results, row, leap);
  return verdict;
}

Fit fit_of(const Trial& trial, const Verdict& verdict) {
  if (trial.outcome == Outcome::some_out) return verdict.way_out ? Fit::fits : Fit::calm_miss;
  return verdict.way_out ? Fit::careful_miss : Fit::fits;
}

std::string table_row(const Trial& trial, const Verdict& verdict) {
  const Fit fit = fit_of(trial, verdict);
  const std::string why = fit == Fit::fits || trial.why.empty() ? "" : ": " + trial.why;
  return fmt::format("| `{}` | {} | {} | {} | {} | {} | {}{}{} |", trial.yard, trial.source,
                     trial.fence, trial.told, trial.figure, verdict.words,
                     trial.counted ? "" : "by construction, ", in_words(fit), why);
}

}  // namespace hummock::trials
