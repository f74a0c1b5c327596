// assets/help/models.txt says what each analysis computes and what it does not, in words that any
// terminal can show.

#include "engine/cli/help/help_models.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "engine/check/analyses.h"
#include "tests/support/paths.h"
#include "tests/support/run_program.h"

namespace hummock::house {
namespace {

constexpr std::size_t kWidest = 90;  // columns

std::string page() {
  return cli::models_page();
}

TEST(HelpModels, HasASectionWithItsLimitsForEachAnalysis) {
  const std::string text = page();
  std::vector<std::string> names = analysis_names();
  names.emplace_back("brief");
  ASSERT_GE(names.size(), 14U);
  for (const std::string& name : names) {
    const std::size_t at = text.find("\n[" + name + "]\n");
    ASSERT_NE(at, std::string::npos) << name;
    EXPECT_LT(text.find("\nLimits: ", at), text.find("\n[", at + 1)) << name;
  }
}

TEST(HelpModels, NamesWhatIsLeftOutAndIsNoWarranty) {
  const std::string text = page();
  for (const char* words : {"- Wall-kicks: ", "- Run-up: ", "- Animals on each other's backs: ",
                            "- Things an animal can shift: ", "calculation aid", "no warranty"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
}

// What is asked at a careful end is said alike wherever it is said.
TEST(HelpModels, SaysAsTheReadmeWhatIsAskedAtACarefulEnd) {
  const auto flat = [](std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  const std::string readme = testing::text_of(tests::source_dir() + "/README.md");
  for (const std::string& text : {flat(page()), flat(readme)})
    for (const char* words : {"asked at the figures", "at a careful end", "a margin of 1",
                              "margins are not stacked on careful figures"})
      EXPECT_NE(text.find(words), std::string::npos) << words;
}

TEST(HelpModels, FitsATerminal) {
  std::istringstream lines(page());
  for (std::string line; std::getline(lines, line);) {
    EXPECT_LE(line.size(), kWidest) << line;
    EXPECT_TRUE(std::all_of(line.begin(), line.end(), [](char c) { return c >= ' ' && c <= '~'; }))
        << line;
  }
}

}  // namespace
}  // namespace hummock::house
