#include "engine/shade/day/lying_places.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/usable/usable_area.h"
#include "geometry/plan/polygon.h"

namespace hummock::shade {
namespace {

constexpr double kOffTheLine = 1e-6;  // m

// Of blocks of nodes: do all lie farther than `strip` from the outline? None is farther from the
// block's middle than half its diagonal.
class FarBlocks {
 public:
  FarBlocks(const geom::Polygon& outline, const geom::Grid& grid, double strip)
      : across_((grid.nx + kSide - 1) / kSide) {
    constexpr double kSpare = 1e-6;  // m
    const double half = 0.5 * (kSide - 1) * grid.cell;
    for (int j = 0; j < grid.ny; j += kSide)
      for (int i = 0; i < grid.nx; i += kSide) {
        const Vec2 middle = grid.node(i, j) + Vec2{half, half};
        far_.push_back(geom::distance_to_edges(outline, middle) >
                       strip + std::sqrt(2.0) * half + kSpare);
      }
  }
  bool holds(int i, int j) const {
    const int block = j / kSide * across_ + i / kSide;
    return far_[static_cast<std::size_t>(block)];
  }

 private:
  static constexpr int kSide = 16;  // nodes; layout of the work
  int across_;
  std::vector<bool> far_;
};

}  // namespace

LyingPlaces lying_places(const Model& model, const geom::Grid& grid) {
  const usable::UsableGround ground(model);
  const usable::Nodes own = usable::find_nodes(model, ground);
  LyingPlaces out;
  out.body_length = ground.body().length;
  out.body_width = ground.body().width;
  out.body_height = ground.body().height;
  out.node = grid == model.ground.grid ? own.live : usable::find_nodes(model, ground, grid).live;
  const double strip = std::max(out.body_width, kOffTheLine);
  const FarBlocks far(model.outline, grid, strip);
  double off_the_line = 0.0, places = 0.0;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      std::uint8_t& n = out.node[grid.index(i, j)];
      if (n == 0) continue;
      const double off =
          far.holds(i, j) ? strip : geom::distance_to_edges(model.outline, grid.node(i, j));
      if (off >= kOffTheLine) off_the_line += 1.0;
      n = off >= strip ? 1 : 0;
      places += n;
    }
  if (off_the_line > 0.0)
    out.area_m2 = usable::living_area(model, ground, own) * places / off_the_line;
  return out;
}

}  // namespace hummock::shade
