#include "engine/sight/eye_ground.h"

#include <tbb/parallel_for.h>

#include <algorithm>

namespace hummock::sight {
namespace {

constexpr std::size_t kMostBits = std::size_t{1} << 31U;  // 256 MB; then eyes are looked from again

// That of all nodes marked; beyond the grid's first without any.
geom::NodeRange range_of(const geom::Grid& g, const std::vector<std::uint8_t>& marked) {
  geom::NodeRange range{g.nx, -1, g.ny, -1};
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      if (marked[g.index(i, j)] == 0) continue;
      range.i0 = std::min(range.i0, i);
      range.i1 = std::max(range.i1, i);
      range.j0 = std::min(range.j0, j);
      range.j1 = std::max(range.j1, j);
    }
  return range;
}

}  // namespace

EyeGround::EyeGround(const geom::Heightfield& ground, const std::vector<std::uint8_t>& usable,
                     double tall)
    : ground_(ground), usable_(usable), tall_(tall), wanted_(range_of(ground.grid, usable)) {}

HiddenByGround EyeGround::look(Vec3 eye) const {
  return {ground_.grid, geom::hidden_nodes(ground_, eye, tall_, wanted_), usable_};
}

std::shared_ptr<const HiddenByGround> EyeGround::from(Vec3 eye) {
  return from(std::span<const Vec3>{&eye, 1}).front();
}

std::vector<std::shared_ptr<const HiddenByGround>> EyeGround::from(std::span<const Vec3> eyes) {
  std::vector<std::shared_ptr<const HiddenByGround>> out(eyes.size());
  const auto at = [&](std::size_t k) {
    return std::array<double, 3>{eyes[k].x, eyes[k].y, eyes[k].z};
  };
  tbb::parallel_for(std::size_t{0}, eyes.size(), [&](std::size_t k) {
    if (!geom::covers(ground_, geom::xy(eyes[k]))) return;
    const auto known = seen_.find(at(k));
    out[k] = known != seen_.end() ? known->second
                                  : std::make_shared<const HiddenByGround>(look(eyes[k]));
  });
  for (std::size_t k = 0; k < eyes.size(); ++k)
    if (out[k] && (seen_.size() + 1) * usable_.size() <= kMostBits) seen_.emplace(at(k), out[k]);
  return out;
}

}  // namespace hummock::sight
