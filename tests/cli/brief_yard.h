// A small yard with a brief of the test's own, checked as a user would.
#pragma once

#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "tests/support/run_program.h"

namespace hummock::testing {

// A level yard of 10 × 8 m with a mesh fence, loam and no roof; two animals of a species that asks
// nothing. `rows` stand at its end, `head` at its top.
struct BriefYard {
  std::string rows = {};
  std::string head = {};
  std::map<std::string, std::string> beside = {};  // other files: name → text
  std::string only = "space,quantities";           // quick, and no way out is looked for
};

struct Checked {
  Said said;
  nlohmann::json brief;  // of the JSON; null when there is none
  // The row of the brief with this key, what or words; fails when there is none.
  nlohmann::json row(const std::string& key) const;
};

// The report's page.
std::string report_of(const BriefYard& yard);

Checked check_of(const BriefYard& yard, const std::string& more = "");

}  // namespace hummock::testing
