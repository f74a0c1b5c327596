// Drawing a first yard, checking it, and drawing it anew until the check has nothing more to say
// that a taller wall, a roof, a deeper footing or more room could mend.
//
// Model. Each round is the whole check of the yard as written (engine/check/check.h): what it finds
// short, or met only if the animal leaps less than the file says it may, changes the tuning, and
// the yard is drawn again. At most kRounds; the best of them is kept: fewest ways out, then fewest
// rows short or unanswered, then fewest ifs on the
// animal's own figures, then fewest ifs, then the earlier. What is left is in `results`, and is
// for the caller to tell: that a yard is returned says nothing of whether it holds.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/check/check.h"
#include "engine/first_yard/first_yard.h"

namespace hummock::first_yard {

inline constexpr int kRounds = 12;  // numeric, a setting

struct Designed {
  std::string text;
  CheckResults results;
  std::vector<std::string> ways_out;  // each in words
  std::vector<std::string> faults;  // what else is found short, in words, but for rows of the brief
  double width = 0.0, depth = 0.0;  // m
  int rounds = 0;
};

// `file`: where the text is to stand, for the species' path and in errors. Throws InputError where
// a side would be longer than kLongestSide.
Designed design(const Species& species, const Asked& asked, const std::filesystem::path& file,
                const CheckOptions& options = {}, const Progress& progress = {});

// Throws InputError, in a line, where a side is not between kShortestSide and kLongestSide.
void refuse_unsized(const Species& species, const Asked& asked, const Tuning& tuning = {});

// What the text leaves to a person, a line each.
std::vector<std::string> left_open(const std::string& text);

}  // namespace hummock::first_yard
