// Does a remedy that was told hold? It is drawn into the site file and the site is checked again.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "tests/escapes/case_file.h"

namespace hummock::escapes {

// Of every remedy in `results` for the trial's thing, the first that does not hold; else empty.
std::string fault_of(const Case& escape, const RemedyTrial& trial, const nlohmann::json& results);

}  // namespace hummock::escapes
