#include "engine/shade/cast/shadow_boxes.h"

#include <algorithm>
#include <cmath>

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

std::array<float, 7> members(const ShadowBox& b) {
  return {b.x0, b.x1, b.y0, b.y1, b.across0, b.across1, b.z_high};
}

HUMMOCK_WIDE
std::size_t find_meeting(const std::vector<EightBoxes>& eights, const ShadedBox& nodes,
                         std::uint32_t* hits) {
  const ShadowBox n = nodes.box;
  const float lowest = nodes.lowest;
  std::size_t found = 0, first = 0;
  for (const EightBoxes& e : eights) {
    std::array<Floats, 7> b;
    for (std::size_t m = 0; m < b.size(); ++m) load(e[m].data(), b[m]);
    const Flags meet = (b[0] <= n.x1) & (b[1] >= n.x0) & (b[2] <= n.y1) & (b[3] >= n.y0) &
                       (b[4] <= n.across1) & (b[5] >= n.across0) & (b[6] >= lowest);
    for_set(bits_of(meet),
            [&](std::size_t k) { hits[found++] = static_cast<std::uint32_t>(first + k); });
    first += kWide;
  }
  return found;
}

}  // namespace

// Across with more to spare: it is summed of x and y, which a low sun makes large.
ShadedBox shaded_box(const geom::Box3& box, Vec3 ref, const SunRay& sun, Vec2 across) {
  constexpr float kSure = 1e-4F;  // m
  constexpr double kRounds = 1e-5;
  const Vec3 lo = box.lo - ref, hi = box.hi - ref;
  const Vec2 run = sun.run;
  ShadedBox out;
  ShadowBox& b = out.box;
  b.x0 = static_cast<float>(lo.x - std::max(lo.z * run.x, hi.z * run.x)) - kSure;
  b.x1 = static_cast<float>(hi.x - std::min(lo.z * run.x, hi.z * run.x)) + kSure;
  b.y0 = static_cast<float>(lo.y - std::max(lo.z * run.y, hi.z * run.y)) - kSure;
  b.y1 = static_cast<float>(hi.y - std::min(lo.z * run.y, hi.z * run.y)) + kSure;
  out.lowest = static_cast<float>(lo.z) - kSure;
  const double wide = std::max({std::abs(b.x0), std::abs(b.x1), std::abs(b.y0), std::abs(b.y1)});
  const double sure = 10.0 * kSure + kRounds * wide;
  b.across0 = static_cast<float>(std::min(lo.x * across.x, hi.x * across.x) +
                                 std::min(lo.y * across.y, hi.y * across.y) - sure);
  b.across1 = static_cast<float>(std::max(lo.x * across.x, hi.x * across.x) +
                                 std::max(lo.y * across.y, hi.y * across.y) + sure);
  return out;
}

ShadowBox box_of(const EightBoxes& boxes) {
  const auto least = [](const auto& of) { return *std::min_element(of.begin(), of.end()); };
  const auto most = [](const auto& of) { return *std::max_element(of.begin(), of.end()); };
  return {least(boxes[0]), most(boxes[1]), least(boxes[2]), most(boxes[3]),
          least(boxes[4]), most(boxes[5]), most(boxes[6])};
}

void ShadowBoxes::clear() {
  count_ = 0;
  eights_.clear();
}

void ShadowBoxes::add(const ShadowBox& box) {
  const std::array<float, 7> from = members(box);
  if (count_ % kWide == 0) {
    const std::array<float, 7> none = members({});
    eights_.emplace_back();
    for (std::size_t m = 0; m < none.size(); ++m) eights_.back()[m].fill(none[m]);
  }
  for (std::size_t m = 0; m < from.size(); ++m) eights_.back()[m][count_ % kWide] = from[m];
  ++count_;
}

std::span<const std::uint32_t> ShadowBoxes::meeting(const ShadedBox& nodes,
                                                    std::vector<std::uint32_t>& room) const {
  if (room.size() < count_) room.resize(count_);
  return {room.data(), find_meeting(eights_, nodes, room.data())};
}

}  // namespace hummock::shade
