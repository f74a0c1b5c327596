// Every number of a header of the engine carries its mark where it stands: a published source
// (author and year, or a standard), "common practice, no source", "from memory", or the word that
// says that it judges nothing: definition, numeric, layout. On its line or in the comment directly
// above. unmarked.txt lists what needs none, with the reason; an entry whose number is gone fails.

#include <gtest/gtest.h>

#include <map>
#include <regex>

#include "tests/house/source_tree.h"

namespace hummock::house {
namespace {

// The comment of a line, empty when there is none.
std::string comment_in(const std::string& line) {
  const std::size_t at = line.find("//");
  return at == std::string::npos ? std::string{} : line.substr(at + 2);
}

bool only_comment(const std::string& line) {
  const std::size_t at = line.find_first_not_of(' ');
  return at != std::string::npos && line.compare(at, 2, "//") == 0;
}

// What is said of the number declared in line `at`: the comment lines directly above, those of its
// own lines, and those that run on below, indented, beside it.
std::string said_of(const std::vector<std::string>& lines, std::size_t at) {
  std::string words;
  std::size_t first = at;
  while (first > 0 && only_comment(lines[first - 1])) --first;
  for (std::size_t k = first; k < at; ++k) words += comment_in(lines[k]);
  std::size_t last = at;
  while (last + 1 < lines.size() && lines[last].find(';') == std::string::npos) ++last;
  for (std::size_t k = at; k <= last; ++k) words += comment_in(lines[k]);
  for (std::size_t k = last + 1; k < lines.size(); ++k) {
    if (!only_comment(lines[k]) || lines[k].front() != ' ') break;
    words += comment_in(lines[k]);
  }
  return words;
}

bool marked(const std::string& words) {
  static const std::regex mark(
      "common practice, no source|from memory|definition|numeric|layout"
      "|\\b(ISO|OSHA|EN|FIPS|RFC|IAU|9 CFR|29 CFR)\\b ?[0-9]*"
      "|[A-Z][a-z]+,? (et al\\. )?\\(?(1[5-9]|20)[0-9][0-9]\\b");
  return std::regex_search(words, mark);
}

// "engine/leap/leap.h kTightMargin" for each number without a mark.
std::vector<std::string> unmarked(const SourceFile& file) {
  static const std::regex number(
      "^inline constexpr (double|float|int|unsigned|std::size_t|std::u?int[0-9]+_t) "
      "(k[A-Za-z0-9]+)\\b.*$");
  std::vector<std::string> found;
  for (std::size_t k = 0; k < file.lines.size(); ++k) {
    std::smatch match;
    if (std::regex_match(file.lines[k], match, number) && !marked(said_of(file.lines, k)))
      found.push_back(file.path + " " + match[2].str());
  }
  return found;
}

// Path and name to the reason.
std::map<std::string, std::string> unmarked_list() {
  std::map<std::string, std::string> reasons;
  for (const std::string& line : list_of("unmarked.txt")) {
    const std::size_t colon = line.find(": ");
    reasons[line.substr(0, colon)] = colon == std::string::npos ? "" : line.substr(colon + 2);
  }
  return reasons;
}

TEST(Marks, OfALineItsCommentAboveAndTheOneBesideItAreRead) {
  const std::vector<std::string> lines{"// Twigs left, from memory.",
                                       "inline constexpr double kA = 0.3;",
                                       "inline constexpr double kB = 0.3;",
                                       "inline constexpr double kC =",
                                       "    1.0;  // m; common practice,",
                                       "          // no source",
                                       "// from memory",
                                       "int x;"};
  EXPECT_TRUE(marked(said_of(lines, 1)));
  EXPECT_FALSE(marked(said_of(lines, 2)));
  EXPECT_TRUE(marked(said_of(lines, 3)));
  EXPECT_FALSE(marked(" m, at most 2000 of them"));
  EXPECT_TRUE(marked(" the yearly mean, Kopp & Lean 2011"));
}

TEST(Marks, EveryNumberOfTheEnginesHeadersHasOne) {
  std::map<std::string, std::string> reasons = unmarked_list();
  for (const SourceFile& file : sources_below("engine"))
    for (const std::string& name : unmarked(file)) {
      EXPECT_GT(reasons[name].size(), 5U)
          << name
          << " says neither its source nor \"common practice, no source\", \"from memory\", "
          << "definition, numeric or layout";
      reasons.erase(name);
    }
  for (const auto& [name, reason] : reasons)
    ADD_FAILURE() << name << " has a mark or is gone: take it off tests/house/unmarked.txt";
}

}  // namespace
}  // namespace hummock::house
