// A key of a file stands as a text in its row and nowhere else in the program, so that adding one
// is a row and its use, and changing its name is one line.
//
// Looked at are the keys whose name says what they are (two words or more); the short ones (name,
// height, at) are English words that results and reports use too. Results have keys of their own
// that may be called the same; the few places where they are stand below, each with its reason.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

const std::set<std::string> kAllowed{
    "engine/leap/rows/rests_on.cpp",         // names what an answer rests on by its key
    "engine/leap/rows/premises.cpp",         // the same
    "engine/leap/rows/figure_premises.cpp",  // the same
    "engine/check/body_doubts.cpp",          // the same
    "engine/openings/rests_on.cpp",          // the same
    "engine/dig/rests_on.cpp",               // the same
    "engine/entry/careful_gates.cpp",        // the same
    "engine/entry/rests_on.cpp",             // the same
    "engine/first_yard/design.cpp",          // finds what a margin rests on by its key
    "engine/species/body.cpp",               // names the rows whose defaults were used
    "engine/brief/judge_words.cpp",    // the words among which a requirement asks: in an error
    "engine/check/check_json.cpp",     // at_least, at_most: of a row of the results' brief
    "engine/houses/houses_json.cpp",   // climb_places: a key of the results
    "engine/entry/entry_json.cpp",     // second_gate: a key of the results
    "engine/leap/physics/effort.cpp",  // leap_height, leap_distance: names parameters in an error
};

std::set<std::string> compound_keys() {
  std::set<std::string> out;
  for (const auto* table : {&grammar::site_table(), &grammar::species_table()}) {
    for (const auto& [path, keys] : grammar::keys_of(*table)) {
      for (const std::string& key : keys) {
        if (key.find('_') != std::string::npos) out.insert(key);
      }
    }
  }
  return out;
}

std::string whole(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

TEST(KeyNames, StandInTheGrammarAndNowhereElse) {
  const fs::path root = tests::source_dir();
  const std::set<std::string> keys = compound_keys();
  EXPECT_GE(keys.size(), 25U);
  int files = 0;
  for (const char* top : {"engine", "viewer", "geometry"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
      const fs::path file = entry.path().lexically_relative(root);
      const std::string name = file.generic_string();
      if (file.extension() != ".cpp" && file.extension() != ".h") continue;
      if (name.rfind("engine/grammar/", 0) == 0 || kAllowed.count(name) > 0) continue;
      ++files;
      const std::string text = whole(entry.path());
      for (const std::string& key : keys) {
        EXPECT_EQ(text.find("\"" + key + "\""), std::string::npos) << name << ": " << key;
      }
    }
  }
  EXPECT_GT(files, 300);
}

// A row is found by its key alone only where the key stands once for each kind of thing.
TEST(KeyNames, NoTwoRowsOfATableFillTheSameMeaning) {
  for (const auto* table : {&grammar::site_table(), &grammar::species_table()}) {
    std::set<std::string> seen;
    for (const auto& row : table->rows) {
      EXPECT_TRUE(seen.insert(row.key).second) << row.key;
      EXPECT_FALSE(row.meaning.empty()) << row.key;
      EXPECT_NE(row.meaning.back(), '.') << row.key;
    }
  }
}

}  // namespace
}  // namespace hummock
