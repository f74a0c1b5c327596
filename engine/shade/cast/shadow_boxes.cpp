#include "engine/shade/cast/shadow_boxes.h"

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

std::array<float, 7> members(const ShadowBox& b) {
  return {b.x0, b.x1, b.y0, b.y1, b.across0, b.across1, b.z_high};
}

HUMMOCK_WIDE
std::size_t find_meeting(const std::array<const float*, 7>& of, std::size_t count,
                         const ShadowBox& tile, float lowest, std::uint32_t* hits) {
  std::size_t found = 0;
  for (std::size_t k = 0; k < count; k += kWide) {
    std::array<Floats, 7> b;
    for (std::size_t m = 0; m < b.size(); ++m) load(of[m] + k, b[m]);
    const Flags meet = (b[0] <= tile.x1) & (b[1] >= tile.x0) & (b[2] <= tile.y1) &
                       (b[3] >= tile.y0) & (b[4] <= tile.across1) & (b[5] >= tile.across0) &
                       (b[6] >= lowest);
    for_set(bits_of(meet),
            [&](std::size_t n) { hits[found++] = static_cast<std::uint32_t>(k + n); });
  }
  return found;
}

}  // namespace

void ShadowBoxes::clear() {
  count_ = 0;
  for (auto& m : of_) m.clear();
}

void ShadowBoxes::add(const ShadowBox& box) {
  const std::array<float, 7> from = members(box), none = members({});
  for (std::size_t m = 0; m < of_.size(); ++m) {
    if (count_ % kWide == 0) of_[m].resize(count_ + kWide, none[m]);
    of_[m][count_] = from[m];
  }
  ++count_;
}

void ShadowBoxes::meeting(const ShadowBox& tile, float lowest,
                          std::vector<std::uint32_t>& hits) const {
  hits.resize(of_[0].size());
  std::array<const float*, 7> of{};
  for (std::size_t m = 0; m < of.size(); ++m) of[m] = of_[m].data();
  hits.resize(find_meeting(of, of_[0].size(), tile, lowest, hits.data()));
}

}  // namespace hummock::shade
