// What a figure of the results is, declared once by the analysis that makes it.
//
// `key` is the dotted key a requirement asks by and the JSON carries (DESIGN §5). Everything that
// shows a figure to a person (terminal, report, viewer, comparison, `hummock help figures`) takes
// its title, unit and digits from here, and the judge refuses a requirement that does not fit.
#pragma once

#include <string>
#include <vector>

namespace hummock {

// Which way a figure is better for the animal and those who keep it, when it is.
enum class Better { more, less, neither };

struct FigureInfo {
  std::string key;    // "space.plan_area_m2"
  std::string title;  // "area in plan"
  std::string unit;   // "m²"; empty = a plain number, "of 1" = a share
  int decimals = 2;   // as shown to a person
  Better better = Better::neither;
  std::string meaning;     // one sentence
  std::string group = {};  // of the report, where it is not its analysis' own: "guests"
  std::vector<std::string> words = {};  // that its value is made of; empty = its value is a number
};
using FigureRows = std::vector<FigureInfo>;

}  // namespace hummock
