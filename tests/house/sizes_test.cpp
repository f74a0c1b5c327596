// No file and no folder outgrows its reader. What is too large today stands in offenders.txt, which
// may only shrink: an entry that grew, or that is no offender any more, fails too.

#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "tests/house/source_tree.h"

namespace hummock::house {
namespace {

constexpr int kMostLines = 350;
constexpr int kMostFlat = 15;  // .cpp flat in one folder

const std::vector<std::string> kRooms{"engine", "geometry", "viewer", "tests"};

// "file engine/x.cpp 400" and "folder tests/x 17" of offenders.txt.
std::map<std::string, int> allowed(const std::string& kind) {
  std::map<std::string, int> sizes;
  for (const std::string& line : list_of("offenders.txt")) {
    std::istringstream in(line);
    std::string what, path;
    int size = 0;
    if (in >> what >> path >> size && what == kind) sizes[path] = size;
  }
  return sizes;
}

void compare(const std::string& kind, const std::map<std::string, int>& found, int most) {
  const std::map<std::string, int> listed = allowed(kind);
  for (const auto& [path, size] : found) {
    const auto entry = listed.find(path);
    const int limit = entry == listed.end() ? most : entry->second;
    EXPECT_LE(size, limit) << path << ": split it when a second idea appears";
  }
  for (const auto& [path, size] : listed) {
    const auto it = found.find(path);
    const bool too_large = it != found.end() && it->second > most;
    EXPECT_TRUE(too_large) << path << " is well again: take \"" << kind << " " << path << " "
                           << size << "\" off tests/house/offenders.txt";
  }
}

TEST(House, NoFileIsLongerThanThreeHundredAndFiftyLines) {
  std::map<std::string, int> sizes;
  for (const std::string& room : kRooms)
    for (const SourceFile& file : sources_below(room))
      sizes[file.path] = static_cast<int>(file.lines.size());
  ASSERT_GT(sizes.size(), 300U);
  compare("file", sizes, kMostLines);
}

TEST(House, TheTopLevelHoldsNothingElse) {
  const std::vector<std::string> wanted{"CHANGELOG.md",  "CMakeLists.txt", "CMakePresets.json",
                                        "DEVELOPERS.md", "LICENSE",        "README.md",
                                        "assets",        "engine",         "examples",
                                        "geometry",      "tests",          "viewer"};
  EXPECT_EQ(top_level(), wanted);
}

TEST(House, NoFolderHoldsAProgram) {
  for (const std::string room : {"engine", "geometry", "viewer", "assets", "examples", "tests"})
    EXPECT_EQ(programs_below(room), std::vector<std::string>{}) << room;
}

TEST(House, NoFolderHoldsMoreThanFifteenSources) {
  std::map<std::string, int> sizes;
  for (const std::string& room : kRooms)
    for (const SourceFile& file : sources_below(room))
      if (file.path.ends_with(".cpp")) ++sizes[file.path.substr(0, file.path.rfind('/'))];
  ASSERT_GT(sizes.size(), 30U);
  compare("folder", sizes, kMostFlat);
}

}  // namespace
}  // namespace hummock::house
