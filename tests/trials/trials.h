// Published fence trials as yards: what happened, whose figure is used, what the program says.
//
// The yards stand in yards/, each with the fence as its source gives it and an animal of animals/,
// whose leap comes from elsewhere than the trial; where it does not the row is by construction and
// is not counted. Fences that kept animals out are turned round, so that the overhang or apron lies
// on the animal's side. Verdicts are those of `hummock check --only leap`, by the same functions.
#pragma once

#include <string>
#include <vector>

namespace hummock::trials {

// some_out: at least one animal got over; most may have been held.
enum class Outcome { some_out, held };

struct Trial {
  std::string yard;    // yards/NAME.site.toml
  std::string source;  // of the trial
  std::string fence;
  Outcome outcome = Outcome::held;
  std::string told;    // what happened, in few words
  std::string figure;  // the animal's, and where it is from
  bool counted = true;
  std::string why;  // of a miss
};

const std::vector<Trial>& all_trials();

// fits: somebody got out and the program says how; nobody did and it says held (whatever its ifs).
// careful miss: nobody did, and the program says how. calm miss: somebody did, and it says held.
enum class Fit { fits, careful_miss, calm_miss };

struct Verdict {
  bool way_out = false;
  std::string words;
};
Verdict verdict_of(const Trial& trial);
Fit fit_of(const Trial& trial, const Verdict& verdict);

// The row of the table in tests/trials/README.md.
std::string table_row(const Trial& trial, const Verdict& verdict);

}  // namespace hummock::trials
