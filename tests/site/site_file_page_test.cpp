// examples/SITE-FILE.md explains every key the readers accept, in a section of its table.
#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "engine/check/check.h"
#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "engine/toml/toml_tree.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

using grammar::figure_groups;

const TableKeys& site_keys() {
  static const TableKeys keys = grammar::keys_of(grammar::site_table());
  return keys;
}
const TableKeys& species_keys() {
  static const TableKeys keys = grammar::keys_of(grammar::species_table());
  return keys;
}

// Section of the page a table is explained in: part of its heading. Tables written inline stand in
// the section of the table they are in.
std::string heading_of(const std::string& table) {
  if (table.empty()) return "## Top of the file";
  const std::string first = table.substr(0, table.find('.'));
  if (first != "boundary" && first != "ground") return "[" + first + "]";
  const std::size_t second = table.find('.', first.size() + 1);
  return "[" + table.substr(0, second) + "]";
}

// Heading line → text up to the next heading.
std::map<std::string, std::string> sections_of_page() {
  std::ifstream in(tests::source_dir() + "/examples/SITE-FILE.md");
  EXPECT_TRUE(in);
  std::map<std::string, std::string> sections;
  std::string heading;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with('#')) heading = line;
    sections[heading] += line + "\n";
  }
  return sections;
}

std::string section_with(const std::string& part) {
  for (const auto& [heading, text] : sections_of_page()) {
    if (heading.find(part) != std::string::npos) return text;
  }
  ADD_FAILURE() << "no heading with " << part;
  return "";
}

bool explains(const std::string& section, const std::string& key) {
  return section.find("`" + key + "`") != std::string::npos;
}

TEST(SiteFilePage, ExplainsEveryKeyOfASite) {
  int keys = 0;
  for (const auto& [table, names] : site_keys()) {
    const std::string section = section_with(heading_of(table));
    for (const std::string& key : names) {
      const std::string path = joined_path(table, key);
      if (site_keys().count(path) > 0) continue;  // a table of its own, looked up by its heading
      EXPECT_TRUE(explains(section, key)) << path;
      ++keys;
    }
  }
  EXPECT_GT(keys, 130);
}

TEST(SiteFilePage, ExplainsEveryKeyOfASpecies) {
  const std::string section = section_with("The species file");
  for (const auto& [table, names] : species_keys()) {
    const std::string top = table.substr(0, table.find('.'));
    if (top == "require" || top == "either" || top == "confirm") continue;
    for (const std::string& key : names) {
      if (key == "require" || key == "format" || key == "value" || key == "source") continue;
      EXPECT_TRUE(explains(section, key) || key == "name") << table << "." << key;
    }
  }
}

TEST(Requirements, MayNameTheFiguresOfEveryAnalysisAndOfNothingElse) {
  const std::set<std::string> groups(figure_groups().begin(), figure_groups().end());
  const std::set<std::string> analyses(analysis_names().begin(), analysis_names().end());
  EXPECT_EQ(groups, analyses);
}

// The other way round: a key that the page explains in a table's first column exists.
TEST(SiteFilePage, ExplainsNoKeyThatTheReaderRefuses) {
  std::set<std::string> known;
  for (const auto* schema : {&site_keys(), &species_keys()}) {
    for (const auto& [table, names] : *schema) known.insert(names.begin(), names.end());
  }
  const std::regex word("`([a-z_]+)`");
  for (const auto& [heading, text] : sections_of_page()) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
      if (line.rfind("| `", 0) != 0) continue;
      const std::string first = line.substr(0, line.find('|', 2));
      for (std::sregex_iterator it(first.begin(), first.end(), word), end; it != end; ++it) {
        EXPECT_TRUE(known.count((*it)[1])) << heading << ": " << (*it)[1];
      }
    }
  }
}

}  // namespace
}  // namespace hummock
