// One case of the corpus as it stands in its folder, cases/NAME/case.toml.
//
// A case is a yard that was once called met and is not (or the other way about), with the truth and
// how the truth is known. What is expected encodes the truth with its tolerance, never what the
// program says today. README.md lists the keys.
#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace hummock::escapes {

// One thing that must be so. Exactly one of `at`, `row`, `says`, `never_says` and `no_pair` is set.
struct Expectation {
  // A figure of the JSON: "leap.margin", "dig.burrows[den].within", "openings.list[].ball_m".
  // Several paths: the first that is there counts. null is "nothing within the limit": infinite.
  std::vector<std::string> at;
  std::string of = "every";  // every | least | most: which of several values
  bool may_be_absent = false;
  std::optional<double> at_least;
  std::optional<double> at_most;
  std::vector<std::string> one_of;  // a text or true/false must be one of these

  // A row of the brief, and how it may stand: met, met_if, met_as_drawn, short …
  std::string row;
  std::vector<std::string> standing;

  // Regular expressions, letters of either case, over the lines the program prints.
  std::string says;
  std::string never_says;
  std::string or_says;  // beside `at` or `row`: enough as well

  // Two numbers of one sentence that may not both be below these.
  std::string no_pair;
  std::array<double, 2> below{};
};

// A remedy that is told for a thing is applied, and the site checked again. None told is no fault.
struct RemedyTrial {
  std::string thing;
  double margin_at_least = 1.0;                 // leap.margin afterwards
  std::vector<std::array<double, 4>> off;       // x0, y0, x1, y1 that its plan may not overlap
  std::optional<std::array<double, 4>> within;  // and must stay inside
};

// The exported mesh of a part: how high it reaches.
struct MeshTop {
  std::string part;
  double at_least = 0.0;
  double at_most = 0.0;
};

// One run of `hummock check`.
struct CheckRun {
  std::string only;            // analyses, as after --only
  std::string flags;           // more of the command line
  std::vector<int> status;     // exit statuses that are right; empty = any but a crash
  std::string refused;         // the site must be refused: what the one line must say
  std::string may_be_refused;  // refusing it so is as good an answer
  double seconds = 60.0;       // stopped after this
  std::vector<Expectation> expect;
  std::vector<RemedyTrial> remedies;
  std::optional<MeshTop> mesh;
};

struct Case {
  std::string name;  // of the folder
  std::filesystem::path folder;
  std::filesystem::path site;
  std::string hard, before, truth, known;
  std::vector<CheckRun> runs;
};

// Throws std::runtime_error, naming the file, when a key is unknown or missing.
Case read_case(const std::filesystem::path& folder);

// Folders of cases/, by name.
std::vector<std::string> case_names();

// Cases that are not mended yet, open.txt.
std::vector<std::string> open_cases();

}  // namespace hummock::escapes
