// A small yard whose names try everything a page could trip over, checked and reported once.
#pragma once

#include <string>

#include "engine/check/check.h"
#include "engine/report/report.h"
#include "tests/support/run_program.h"

namespace hummock::report {

inline const std::string kBadName =
    "<img src=x onerror=\"document.title='run'\"> & 'stone' </script><script>document.title='run'"
    "</script>";
inline const std::string kHebrew = "סלע גדול";

struct WrittenYard {
  testing::ScratchFolder folder;
  Model model;
  CheckOptions options;
  CheckResults results;
  Written written;
};

// All analyses, a place, a viewing place and water; 10 m × 8 m with solid walls.
const WrittenYard& whole_yard();
// Space, leap and openings only, no place.
const WrittenYard& half_yard();

Site bad_named_site();

}  // namespace hummock::report
