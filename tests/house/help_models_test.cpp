// assets/help/models.txt says what each analysis computes and what it does not, in words that any
// terminal can show.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "tests/support/paths.h"

namespace hummock::house {
namespace {

constexpr std::size_t kWidest = 90;  // columns

std::string page() {
  std::ifstream in(tests::source_dir() + "/assets/help/models.txt");
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

TEST(HelpModels, HasASectionWithItsLimitsForEachAnalysis) {
  const std::string text = page();
  for (const char* name : {"space", "relief", "leap", "dig", "openings", "entry", "shade", "sight",
                           "water", "earthworks", "burrows", "houses", "quantities", "brief"}) {
    const std::size_t at = text.find("\n[" + std::string(name) + "]\n");
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
