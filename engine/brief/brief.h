// The brief: each requirement against its figure.
//
// `what` is a dotted key of the results (DESIGN §5), e.g. "space.plan_area_m2" or "leap.margin".
// The figures come as a flat map so that this knows no analysis.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/brief/assumptions.h"
#include "engine/brief/outcome.h"
#include "engine/site/site.h"

namespace hummock {

enum class Met { met, short_of, not_checked };

// How a requirement stands, with all that bears on it.
//   met           whatever is assumed
//   met_if        met as long as what `ifs` lists holds; nobody has confirmed it
//   met_as_drawn  met by the drawing, to be looked at on the ground
//   short_of      not met
//   not_checked   there is no figure, or the work on it stopped before it was decided
//   open          nobody has answered it yet
//   waived        short, and signed off as it is
enum class Standing { met, met_if, met_as_drawn, short_of, not_checked, open, waived };

struct BriefRow {
  std::string what;
  std::optional<double> value;
  std::string required;                     // "at least 93"
  std::optional<double> at_least, at_most;  // after `per` is applied
  Met met = Met::not_checked;
  std::optional<double> margin;  // value − at_least, or at_most − value: negative = short
  std::string where;             // place of the figure, in words; may be empty
  std::string source;
  std::string note;  // of the requirement, or why not checked
  Standing standing = Standing::not_checked;
  std::vector<Assumption> ifs;  // what being met rests on, confirmed or not
  Outcome outcome = Outcome::not_run;
  std::string why;  // bounded by what, incomplete or not run why, waived by whom
  std::optional<NotRun> not_run;
  bool must = true;  // false: a `should` row, which never changes the exit status
};

struct Figure {
  std::optional<double> value;  // nothing = no such value (e.g. no escape within the limit)
  std::string where;
  bool unbounded = false;  // no value because it is larger than was looked for
  // With `unbounded`: what it is known to be at least (no escape found up to here). Nothing = it
  // has no end (no tunnel at all) and counts as larger than anything.
  std::optional<double> bounded_below = {};
  // Not proven: bounded (known to be at least `bounded_below`) or incomplete (the same, and more
  // was meant to be tried). `value` is then what is shown and decides nothing.
  Outcome outcome = Outcome::proven;
  std::string why = {};  // in words, when not proven
};
using Figures = std::map<std::string, Figure>;

// One row for each requirement of species and site, in order. `not_run`: analysis → why;
// `rests_on`: analysis → what its answer rests on.
std::vector<BriefRow> judge(const Site& site, const Figures& figures,
                            const std::map<std::string, NotRun>& not_run,
                            const std::map<std::string, RestsOn>& rests_on = {});

// The most that is asked, as a least, of those requirements of the figure which this value meets;
// nothing where there is none.
std::optional<double> most_asked_and_met(const Site& site, const std::string& key, double value);

// Counts for the exit status and the last line: a `must` row that is short, open, not checked, met
// as drawn, or met if what nobody has confirmed. A row left out on purpose (--only) does not.
bool stands_in_the_way(const BriefRow& row);

const char* to_string(Met met);            // "met" | "short" | "not checked"
const char* to_string(Standing standing);  // "met" | "met_if" | "short" | "not_checked" …
const char* in_words(Standing standing);   // "met" | "met, if" | "short" | "not checked" …

}  // namespace hummock
