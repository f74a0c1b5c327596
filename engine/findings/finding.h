// A finding: what a reviewer should look at first, in words, with the place and what to do.
//
// Each analysis puts its own results in words, in its own folder (`add_findings` in NAME_json.h);
// nothing is computed here. Lengths are said in metres with at most three significant digits: a
// number that a person can act on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock {

// an animal can leave; a requirement fails; worth a look
enum class Severity { way_out, short_of, look };
const char* to_string(Severity severity);  // "way out" | "short" | "look"

struct Finding {
  Severity weight = Severity::look;
  std::string analysis;    // "leap"
  std::string thing;       // name in the site file, may be empty
  std::string text;        // what is the matter, with figures
  std::string to_do;       // may be empty
  std::optional<Vec3> at;  // local coordinates
};
using FindingList = std::vector<Finding>;

// "(3.20, 1.75)", in the site's own coordinates.
std::string place_words(const Model& model, Vec3 at);
std::string place_words(const Model& model, Vec2 at);
// 'garden wall'; nothing for a thing without a name.
std::string quoted(const std::string& name);
// Three significant digits, but no more decimals than a tape measures (three): 0.974, 12.3, 140.
std::string plain_figure(double value);

}  // namespace hummock
