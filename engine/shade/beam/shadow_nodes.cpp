#include "engine/shade/beam/shadow_nodes.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

// Eight runs' least and greatest.
[[gnu::always_inline]] inline void set_runs(const float* of, float* least, float* most) {
  std::array<Floats, kWide> runs;
  for (std::size_t k = 0; k < kWide; ++k) load(of + k * kWide, runs[k]);
  Floats lo, hi;
  pick_of_each<Lesser>(runs, lo);
  pick_of_each<Greater>(runs, hi);
  std::memcpy(least, &lo, sizeof lo);
  std::memcpy(most, &hi, sizeof hi);
}

// A tile's nodes in shadow coordinates, that of `off` being (x, y).
struct Shift {
  float x, y, up, run_x, run_y;
};
// One run from the kth node on; x and y may be those of other nodes that stand alike.
[[gnu::always_inline]] inline void place_run(const Floats& x, const Floats& y, const float* up,
                                             const Shift& s, std::size_t k, ShadowNodes& n) {
  Floats z;
  load(up + k, z);
  const Floats qx = s.x + (x - z * s.run_x), qy = s.y + (y - z * s.run_y), high = s.up + z;
  std::memcpy(&n.qx[k], &qx, sizeof qx);
  std::memcpy(&n.qy[k], &qy, sizeof qy);
  std::memcpy(&n.z[k], &high, sizeof high);
}
HUMMOCK_WIDE
void place_nodes(const Tile& tile, const Shift& s, ShadowNodes& n) {
  // An even tile's x and y are not fetched node by node: the tiles of a yard fill no cache.
  for (std::size_t k = 0; k < kTileNodes; k += kWide) {
    Floats x, y;
    load(&tile.x[tile.even ? k % kTile : k], x);
    if (tile.even)
      y = Floats{} + tile.row_y[k / kTile];
    else
      load(&tile.y[k], y);
    place_run(x, y, tile.z.data(), s, k, n);
  }
  for (std::size_t run = 0; run < ShadowNodes::kRuns; run += kWide) {
    set_runs(&n.qx[run * kWide], &n.run_x0[run], &n.run_x1[run]);
    set_runs(&n.qy[run * kWide], &n.run_y0[run], &n.run_y1[run]);
  }
}

}  // namespace

void shadow_nodes(const Tile& tile, const SunRay& sun, Vec3 ref, ShadowNodes& n) {
  const Vec3 off = tile.ref - ref;
  place_nodes(
      tile,
      {static_cast<float>(off.x - off.z * sun.run.x), static_cast<float>(off.y - off.z * sun.run.y),
       static_cast<float>(off.z), static_cast<float>(sun.run.x), static_cast<float>(sun.run.y)},
      n);
  n.z_top = static_cast<float>(tile.box.hi.z - ref.z);
  n.x0 = *std::min_element(n.run_x0.begin(), n.run_x0.end());
  n.x1 = *std::max_element(n.run_x1.begin(), n.run_x1.end());
  n.y0 = *std::min_element(n.run_y0.begin(), n.run_y0.end());
  n.y1 = *std::max_element(n.run_y1.begin(), n.run_y1.end());
}

}  // namespace hummock::shade
