// Published fence trials as yards, and the table of them in README.md beside this file. Every row
// of the table is worked out again; a row that is not of today fails. To write the table anew:
//   HUMMOCK_WRITE_TRIALS=FILE build/bin/test_trials --gtest_filter=Trials.WritesTheTableWhenAsked
#include "tests/trials/trials.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "tests/support/paths.h"

namespace hummock::trials {
namespace {

std::string text_of(const std::string& path) {
  std::ifstream in(std::filesystem::path(tests::source_dir()) / path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<std::string> table_lines() {
  std::istringstream in(text_of("tests/trials/README.md"));
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("| `", 0) == 0) lines.push_back(line);
  }
  return lines;
}

// By the words that table_row uses.
std::string counts_of(const std::vector<std::string>& lines) {
  int counted = 0, fit = 0, careful = 0, calm = 0, built = 0;
  for (const std::string& line : lines) {
    const auto has = [&](const char* word) { return line.find(word) != std::string::npos; };
    if (has("| by construction")) {
      ++built;
      continue;
    }
    ++counted;
    fit += has("| fits |") ? 1 : 0;
    careful += has("| miss, careful") ? 1 : 0;
    calm += has("| **miss, calm**") ? 1 : 0;
  }
  return fmt::format(
      "{} trials are counted: {} fit, {} miss on the careful side, {} calmly; {} more are by "
      "construction and not counted",
      counted, fit, careful, calm, built);
}

class OneTrial : public testing::TestWithParam<std::size_t> {};

TEST_P(OneTrial, StandsInTheTableAsItIsToday) {
  const Trial& trial = all_trials()[GetParam()];
  const std::string row = table_row(trial, verdict_of(trial));
  const std::vector<std::string> lines = table_lines();
  EXPECT_EQ(std::count(lines.begin(), lines.end(), row), 1) << row;
}

INSTANTIATE_TEST_SUITE_P(Trials, OneTrial, testing::Range(std::size_t{0}, all_trials().size()),
                         [](const auto& param) {
                           std::string name = all_trials()[param.param].yard;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(Trials, TheTableHasNoRowTooMany) {
  EXPECT_EQ(table_lines().size(), all_trials().size());
  std::set<std::string> yards;
  for (const Trial& t : all_trials()) yards.insert(t.yard);
  EXPECT_EQ(yards.size(), all_trials().size());
}

TEST(Trials, TheCountsAreThoseOfTheTableHereAndInTheGuide) {
  const std::string counts = counts_of(table_lines());
  const auto in_one_line = [](std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  for (const char* page : {"tests/trials/README.md", "README.md"}) {
    EXPECT_NE(in_one_line(text_of(page)).find(counts), std::string::npos)
        << page << " should say: " << counts;
  }
}

// The worst failure of the tool: an animal got out, and it is told held without an if.
TEST(Trials, NoneThatIsCountedIsMissedCalmly) {
  for (const std::string& line : table_lines()) {
    EXPECT_EQ(line.find("**miss, calm**"), std::string::npos) << line;
  }
}

TEST(Trials, WritesTheTableWhenAsked) {
  const char* file = std::getenv("HUMMOCK_WRITE_TRIALS");
  if (file == nullptr) GTEST_SKIP() << "HUMMOCK_WRITE_TRIALS names no file";
  std::ofstream out(file);
  std::vector<std::string> lines;
  for (const Trial& trial : all_trials()) {
    lines.push_back(table_row(trial, verdict_of(trial)));
    out << lines.back() << "\n" << std::flush;
  }
  out << counts_of(lines) << "\n";
}

}  // namespace
}  // namespace hummock::trials
