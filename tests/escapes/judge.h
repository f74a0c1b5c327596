// What of a case does not hold: one sentence for each expectation that is not met.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "tests/escapes/case_file.h"

namespace hummock::escapes {

// Runs the case with the built program. Empty: the program tells the truth.
std::vector<std::string> faults_of(const Case& escape);

// One expectation against the results and the lines printed; empty when it holds.
std::string fault_of(const Expectation& expectation, const nlohmann::json& results,
                     const std::string& printed);

}  // namespace hummock::escapes
