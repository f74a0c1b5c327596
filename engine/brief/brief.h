// The brief: each requirement against its figure.
//
// `what` is a dotted key of the results (DESIGN §5), e.g. "space.plan_area_m2" or "leap.margin".
// The figures come as a flat map so that this knows no analysis.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"

namespace hummock {

enum class Met { met, short_of, not_checked };

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
};

struct Figure {
  std::optional<double> value;  // nothing = no such value (e.g. no escape within the limit)
  std::string where;
  bool unbounded = false;  // no value because it is larger than was looked for
  // With `unbounded`: what it is known to be at least (no escape found up to here). Nothing = it
  // has no end (no tunnel at all) and counts as larger than anything.
  std::optional<double> bounded_below = {};
};
using Figures = std::map<std::string, Figure>;

// One row for each requirement of species and site, in order. `not_run`: analysis → reason.
std::vector<BriefRow> judge(const Site& site, const Figures& figures,
                            const std::map<std::string, std::string>& not_run);
const char* to_string(Met met);  // "met" | "short" | "not checked"

}  // namespace hummock
