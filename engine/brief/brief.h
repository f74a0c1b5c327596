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
//   not_asked     its `when` is not so on this site: it counts for nothing
enum class Standing { met, met_if, met_as_drawn, short_of, not_checked, open, waived, not_asked };

// figure  a number against its limits        words   words against words
// ask     a row in words for a person        either  sets of rows, of which one must be met whole
enum class RowKind { figure, words, ask, either };

// A set of an `either`: how it stands, and which rows of the brief are its own.
struct SetStanding {
  std::string name;
  Standing standing = Standing::not_checked;
  std::vector<std::size_t> rows;
};

struct BriefRow {
  std::string what;  // empty for a row in words and for an either
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
  bool must = true;  // false: a `should` row, which never changes the exit status (or its set)
  RowKind kind = RowKind::figure;
  std::string key = {};       // what a confirmation or a waiver names it by
  std::string words = {};     // the row in words, or the name of the either
  std::string asked_by = {};  // the brief file's name; empty = the site's own file or its species'
  std::string stricter = {};  // who asks more of the same figure, and so decides; else empty
  std::string waiver = {};    // who signed it off and why, whether it is short or not
  std::optional<When> when = {};                       // nothing = always asked
  std::optional<std::vector<std::string>> found = {};  // of a figure of words
  std::string either = {}, set = {};                   // that the row belongs to
  std::vector<SetStanding> sets = {};                  // of an either
  bool in_set() const { return !set.empty(); }
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
  std::string why = {};                                // in words, when not proven
  std::optional<std::vector<std::string>> words = {};  // of a figure whose value is words
};
using Figures = std::map<std::string, Figure>;

// One row for each requirement of species, site and brief files, in order; then each either with
// the rows of its sets behind it. What a row's `when` says is not looked at here
// (engine/brief/when.h). `not_run`: analysis → why; `rests_on`: analysis → what its answer rests
// on.
std::vector<BriefRow> judge(const Site& site, const Figures& figures,
                            const std::map<std::string, NotRun>& not_run,
                            const std::map<std::string, RestsOn>& rests_on = {});

// The most that is asked, as a least, of those requirements of the figure which this value meets;
// nothing where there is none.
std::optional<double> most_asked_and_met(const Site& site, const std::string& key, double value);

// Counts for the exit status and the last line: a `must` row that is short, open, not checked, met
// as drawn, or met if what nobody has confirmed. A row left out on purpose (--only) does not, nor
// one of a set: its either does.
bool stands_in_the_way(const BriefRow& row);

// Who asks it: the brief file's name, or "the site or its species".
std::string asker_of(const BriefRow& row);

const char* to_string(RowKind kind);       // "figure" | "words" | "ask" | "either"
const char* to_string(Met met);            // "met" | "short" | "not checked"
const char* to_string(Standing standing);  // "met" | "met_if" | "short" | "not_checked" …
const char* in_words(Standing standing);   // "met" | "met, if" | "short" | "not checked" …

}  // namespace hummock
