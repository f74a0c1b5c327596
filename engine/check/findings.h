// Findings: what a reviewer should look at first, in words, with the place and what to do.
//
// Made from results only; nothing is computed here. Worst first, then in the order of the analyses;
// the same results give the same list.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/check/check.h"

namespace hummock {

enum class Severity {
  way_out,
  short_of,
  look
};  // an animal can leave; a requirement fails; worth a look

struct Finding {
  Severity weight = Severity::look;
  std::string analysis;    // "leap"
  std::string thing;       // name in the site file, may be empty
  std::string text;        // what is the matter, with figures
  std::string to_do;       // may be empty
  std::optional<Vec3> at;  // local coordinates
};

std::vector<Finding> findings(const Model& model, const CheckResults& results);

// "The design is short of its brief in 3 of 17 requirements; the animal can get out over 'south
// run'."
std::string verdict_sentence(const Model& model, const CheckResults& results);

// The lines every output carries (rule: a calculation aid, no warranty).
const std::vector<std::string>& cautions();

const char* to_string(Severity weight);

}  // namespace hummock
