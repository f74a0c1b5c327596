// examples/SITE-FILE.md is what the program writes from its rows, and help finds every key.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "engine/grammar/help.h"
#include "engine/grammar/read_table.h"
#include "engine/grammar/tables.h"
#include "tests/support/paths.h"

namespace hummock::grammar {
namespace {

std::string whole(const char* file) {
  std::ifstream in(std::filesystem::path(tests::source_dir()) / file, std::ios::binary);
  EXPECT_TRUE(in) << file;
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

TEST(SiteFilePage, IsWhatTheProgramWrites) {
  EXPECT_EQ(whole("examples/SITE-FILE.md"), page(whole("assets/site-file-page.md")))
      << "stale: run hummock help site --markdown > examples/SITE-FILE.md";
}

int explained(const Table& top, const std::string& file) {
  int keys = 0;
  for (const auto& [table, names] : keys_of(top)) {
    EXPECT_FALSE(help(top, file, table).empty()) << table;
    for (const std::string& name : names) {
      std::string path = table;
      if (!path.empty()) path += '.';
      path += name;
      const std::string words = help(top, file, path);
      EXPECT_NE(words.find(name), std::string::npos) << path;
      EXPECT_GE(words.size(), name.size() + 10) << path;
      ++keys;
    }
  }
  return keys;
}

TEST(Help, ExplainsEveryTableAndKey) {
  EXPECT_GT(explained(site_table(), "site") + explained(species_table(), "species"), 250);
}

TEST(Help, SaysKindUnitRangeDefaultAndMeaningOfAKey) {
  EXPECT_EQ(help(site_table(), "site", "boundary.section.joint_gap"),
            "  joint_gap  0 … 1 m; else 0\n"
            "             left between neighbouring panels\n");
}

TEST(Help, NamesTheNearestKeyOfOneThatIsNotThere) {
  try {
    help(site_table(), "site", "boundary.section.heigth");
    FAIL() << "was let through";
  } catch (const InputError& error) {
    EXPECT_EQ(error.allowed(), "\"height\" (did you mean that?)");
  }
}

}  // namespace
}  // namespace hummock::grammar
