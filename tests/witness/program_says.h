// One yard through the program, as a user runs it: exported for the witness, and checked.
#pragma once

#include "tests/witness/yards.h"

namespace hummock::witness {

struct ProgramSays {
  double demand = 0.0;        // m: the escape demand, or what it is at least where none was found
  bool found = false;         // it names a way out
  bool leap_met = false;      // the row of the brief, without any "if"
  bool if_named = false;      // met, but it says what that rests on
  bool openings_met = false;  // else the animal may walk out, and it is said
  std::string over;           // what its way out goes over
};

// Writes the yard's files into the folder; `name` is that of the site file.
inline constexpr const char* kSiteFile = "case.site.toml";
void write_yard(const RandomYard& yard, const std::filesystem::path& folder);
// Throws std::runtime_error with the program's words when it fails (status 2 and above).
Yard exported(const std::filesystem::path& folder);
ProgramSays checked(const std::filesystem::path& folder);

}  // namespace hummock::witness
