// Where the ground certainly does not come between a place and the sun.
//
// Conservative: "clear" is certain, the rest is undecided and left to rays. The ground is cut into
// blocks of kBlock cells; of each the greatest height and the range of its triangles' gradients
// are kept. Going from the place towards the sun, in steps of about a block, a stretch is clear if
// the line is by then above all its blocks, or if on the whole way so far no triangle rises towards
// the sun as fast as the line does (then the ground, being below the line at its start, falls ever
// further behind it).
#pragma once

#include <vector>

#include "geometry/terrain/heightfield.h"

namespace hummock::shade {

using geom::Vec2;
using geom::Vec3;

// Horizontal run for each metre of rise, as a range over several sun positions (or one).
struct RunRange {
  Vec2 lo, hi;
};

class TerrainClear {
 public:
  static constexpr int kBlock = 8;  // cells along a side
  explicit TerrainClear(const geom::Heightfield& ground);
  // Is every line from the box towards every sun of the range clear of the ground? The box must lie
  // on or above the ground, every point of it that is meant.
  bool clear(const geom::Box3& from, const RunRange& run) const;

 private:
  struct Block {
    float top = -1e30F;
    float gx0 = 1e30F, gx1 = -1e30F, gy0 = 1e30F, gy1 = -1e30F;
  };
  struct Cells {
    int i0, i1, j0, j1;
    bool none;
  };
  Cells blocks_in(double x0, double x1, double y0, double y1) const;
  template <class Test>
  bool all_of(const Cells& c, const Test& test) const;
  bool all_below(const Cells& c, double height) const;
  bool all_gentle(const Cells& c, const RunRange& run) const;

  geom::Grid grid_;
  int across_ = 0, up_ = 0;
  std::vector<Block> blocks_;
  Block all_;
};

}  // namespace hummock::shade
