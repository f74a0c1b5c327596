// Arrows run one way: viewer -> engine -> geometry, and no two rooms of the engine lean on each
// other.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <utility>

#include "tests/house/source_tree.h"

namespace hummock::house {
namespace {

// What files below `folder` include of any of `rooms`, as "file includes header".
std::vector<std::string> leans(const std::string& folder, const std::vector<std::string>& rooms) {
  std::vector<std::string> found;
  for (const SourceFile& file : sources_below(folder))
    for (const std::string& header : includes_of(file))
      for (const std::string& room : rooms)
        if (header.starts_with(room + "/")) found.push_back(file.path + " includes " + header);
  return found;
}

// "engine/site/site.h" is of the room "site".
std::string room_of(const std::string& path) {
  const std::string top = "engine/";
  if (!path.starts_with(top)) return {};
  const std::size_t end = path.find('/', top.size());
  return end == std::string::npos ? std::string{} : path.substr(top.size(), end - top.size());
}

using Pair = std::pair<std::string, std::string>;

std::set<Pair> arrows() {
  std::set<Pair> found;
  for (const SourceFile& file : sources_below("engine"))
    for (const std::string& header : includes_of(file)) {
      const std::string from = room_of(file.path), to = room_of(header);
      if (!from.empty() && !to.empty() && from != to) found.insert({from, to});
    }
  return found;
}

TEST(House, GeometryKnowsNothingOfEngineOrViewer) {
  EXPECT_EQ(leans("geometry", {"engine", "viewer", "tests"}), std::vector<std::string>{});
  EXPECT_GT(leans("geometry", {"geometry"}).size(), 40U);
}

TEST(House, TheEngineKnowsNothingOfTheViewer) {
  EXPECT_EQ(leans("engine", {"viewer", "tests"}), std::vector<std::string>{});
  EXPECT_GT(leans("engine", {"geometry"}).size(), 100U);
}

// "rooms a b" of offenders.txt: a pair not parted yet. The list may only shrink.
TEST(House, NoTwoRoomsOfTheEngineIncludeEachOther) {
  const std::set<Pair> all = arrows();
  ASSERT_GT(all.size(), 40U);
  std::vector<std::string> mutual, listed;
  for (const auto& [from, to] : all)
    if (from < to && all.count({to, from}) > 0)
      mutual.push_back(std::string("rooms ").append(from).append(" ").append(to));
  for (const std::string& line : list_of("offenders.txt"))
    if (line.starts_with("rooms ")) listed.push_back(line);
  std::sort(listed.begin(), listed.end());
  EXPECT_EQ(mutual, listed) << "first: found in the tree; second: tests/house/offenders.txt";
}

}  // namespace
}  // namespace hummock::house
