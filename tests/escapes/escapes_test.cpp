// The corpus of escapes: yards that were called met and are not. One test a folder of cases/.
//
// What is expected of a case is the truth, known from a closed form, an independent program or the
// geometry alone (case.toml says which). A case in open.txt is not mended yet: it is run too, and
// its test fails when the program has come to tell the truth, so that it is taken off the list.
#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <nlohmann/json.hpp>

#include "tests/escapes/judge.h"
#include "tests/support/run_program.h"

namespace hummock::escapes {
namespace {

namespace fs = std::filesystem;
const fs::path kCases = HUMMOCK_ESCAPES;

bool is_open(const std::string& name) {
  const std::vector<std::string> open = open_cases();
  return std::find(open.begin(), open.end(), name) != open.end();
}

std::string all_of(const Case& c, const std::vector<std::string>& faults) {
  std::string text = c.name + ": " + c.truth + "\n";
  for (const std::string& f : faults) text += "  " + f + "\n";
  return text;
}

class Escape : public ::testing::TestWithParam<std::string> {};

TEST_P(Escape, is_told) {
  const Case c = read_case(kCases / "cases" / GetParam());
  const std::vector<std::string> faults = faults_of(c);
  if (is_open(c.name)) {
    std::cout << all_of(c, faults);
    EXPECT_FALSE(faults.empty()) << c.name << " is told now: take it off open.txt";
  } else {
    EXPECT_TRUE(faults.empty()) << all_of(c, faults);
  }
}

std::string test_name(const ::testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Corpus, Escape, ::testing::ValuesIn(case_names()), test_name);

TEST(Corpus, every_open_case_has_a_folder) {
  for (const std::string& name : open_cases()) {
    EXPECT_TRUE(fs::is_directory(kCases / "cases" / name)) << name;
  }
}

TEST(Corpus, every_case_has_a_row_in_the_readme) {
  const std::string page = testing::text_of(kCases / "README.md");
  for (const std::string& name : case_names()) {
    EXPECT_NE(page.find("| " + name + " |"), std::string::npos) << name;
  }
}

TEST(Corpus, an_expectation_that_does_not_hold_is_told) {
  const nlohmann::json results = nlohmann::json::parse(
      R"({"leap":{"margin":1.5,"objects":[{"name":"rock","verdict":"clear"}]},
          "brief":[{"what":"leap.margin","met":"not checked"}]})");
  Expectation margin;
  margin.at = {"leap.margin"};
  margin.at_most = 1.2;
  EXPECT_NE(fault_of(margin, results, ""), "");
  margin.at_most = 1.6;
  EXPECT_EQ(fault_of(margin, results, ""), "");
  Expectation row;
  row.row = "leap.margin";
  row.standing = {"short"};
  EXPECT_NE(fault_of(row, results, ""), "");
  row.standing = {"not_checked"};
  EXPECT_EQ(fault_of(row, results, ""), "");
  Expectation verdict;
  verdict.at = {"leap.objects[rock].verdict"};
  verdict.one_of = {"a way out"};
  EXPECT_NE(fault_of(verdict, results, ""), "");
  Expectation absent;
  absent.at = {"leap.objects[stone].verdict"};
  absent.one_of = {"clear"};
  EXPECT_NE(fault_of(absent, results, ""), "");
}

}  // namespace
}  // namespace hummock::escapes
