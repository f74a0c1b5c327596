#include "engine/leap/search/room_ways.h"

#include <algorithm>

namespace hummock::leap {

namespace {

const Patch& patch_of(const std::vector<PatchPtr>& patches, int k) {
  return *patches[static_cast<std::size_t>(k)];
}

}  // namespace

RoomWays::RoomWays(const std::vector<PatchPtr>& patches, const LinkRules& rules,
                   const std::vector<int>& wanted)
    : patches_(patches), rules_(rules) {
  for (const int k : wanted) {
    const Patch& patch = patch_of(patches, k);
    if (patch.room >= 0) ways_.push_back(k);
    left_ += patch.from_within ? 1 : 0;
  }
}

std::vector<std::pair<int, Link>> RoomWays::from(int patch) const {
  std::vector<std::pair<int, Link>> links;
  const Patch& off = patch_of(patches_, patch);
  if (off.room < 0) return links;
  for (const int k : ways_) {
    const Patch& onto = patch_of(patches_, k);
    if (onto.room != off.room || k == patch) continue;
    const geom::Vec3 a = off.pieces.front().at, b = onto.pieces.front().at;
    const double over = link_bound(rules_, off.tree.front().box, true, onto.tree.front().box, true);
    const double up = std::min(onto.up_within, over);
    links.emplace_back(k, Link{LinkKind::within, patch, a, b, up, up, 0.0, b});
  }
  return links;
}

void RoomWays::gained(int patch) {
  left_ -= patch_of(patches_, patch).from_within ? 1 : 0;
}

std::vector<int> wanted_of(const Quest& quest) {
  std::vector<int> wanted = quest.targets;
  for (const Start& s : quest.starts) std::erase(wanted, s.patch);
  return wanted;
}

std::vector<int> flown_to(const std::vector<PatchPtr>& patches, std::vector<int> wanted) {
  std::erase_if(wanted, [&](int k) { return patch_of(patches, k).from_within; });
  return wanted;
}

}  // namespace hummock::leap
