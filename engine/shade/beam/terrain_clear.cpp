#include "engine/shade/beam/terrain_clear.h"

#include <algorithm>
#include <cmath>

namespace hummock::shade {
namespace {

// Rounding of float32 heights and gradients, m and m/m: taken against us.
constexpr double kSlack = 1e-5;
// A line along the ground's very edge still counts as over it, m.
constexpr double kEdge = 0.01;

// Greatest g·c over two ranges each of one component.
double largest_product(double a0, double a1, double b0, double b1) {
  return std::max({a0 * b0, a0 * b1, a1 * b0, a1 * b1});
}

template <class Block>
double steepest_rise(const Block& b, const RunRange& run) {
  return largest_product(b.gx0, b.gx1, run.lo.x, run.hi.x) +
         largest_product(b.gy0, b.gy1, run.lo.y, run.hi.y);
}

template <class Block>
void add_gradient(Block& b, double gx, double gy) {
  b.gx0 = std::min(b.gx0, static_cast<float>(gx));
  b.gx1 = std::max(b.gx1, static_cast<float>(gx));
  b.gy0 = std::min(b.gy0, static_cast<float>(gy));
  b.gy1 = std::max(b.gy1, static_cast<float>(gy));
}

template <class Block>
void add_block(Block& all, const Block& b) {
  all.top = std::max(all.top, b.top);
  all.gx0 = std::min(all.gx0, b.gx0);
  all.gx1 = std::max(all.gx1, b.gx1);
  all.gy0 = std::min(all.gy0, b.gy0);
  all.gy1 = std::max(all.gy1, b.gy1);
}

}  // namespace

TerrainClear::TerrainClear(const geom::Heightfield& ground) : grid_(ground.grid) {
  across_ = std::max(1, (grid_.nx - 1 + kBlock - 1) / kBlock);
  up_ = std::max(1, (grid_.ny - 1 + kBlock - 1) / kBlock);
  blocks_.resize(static_cast<std::size_t>(across_) * static_cast<std::size_t>(up_));
  const double c = grid_.cell;
  for (int j = 0; j + 1 < grid_.ny; ++j) {
    for (int i = 0; i + 1 < grid_.nx; ++i) {
      Block& b = blocks_[static_cast<std::size_t>(j / kBlock) * static_cast<std::size_t>(across_) +
                         static_cast<std::size_t>(i / kBlock)];
      const double za = ground.at(i, j), zb = ground.at(i + 1, j), zc = ground.at(i + 1, j + 1),
                   zd = ground.at(i, j + 1);
      b.top = std::max({b.top, static_cast<float>(za), static_cast<float>(zb),
                        static_cast<float>(zc), static_cast<float>(zd)});
      add_gradient(b, (zb - za) / c, (zd - za) / c);  // triangle a, b, d
      add_gradient(b, (zc - zd) / c, (zc - zb) / c);  // triangle c, d, b
    }
  }
  for (const Block& b : blocks_) add_block(all_, b);
}

TerrainClear::Cells TerrainClear::blocks_in(double x0, double x1, double y0, double y1) const {
  const double side = kBlock * grid_.cell;
  const double i0 = std::floor((x0 - grid_.x0) / side), i1 = std::floor((x1 - grid_.x0) / side);
  const double j0 = std::floor((y0 - grid_.y0) / side), j1 = std::floor((y1 - grid_.y0) / side);
  Cells cells{};
  cells.none = x1 < grid_.x0 - kEdge || x0 > grid_.x_max() + kEdge || y1 < grid_.y0 - kEdge ||
               y0 > grid_.y_max() + kEdge;
  cells.i0 = static_cast<int>(std::clamp(i0, 0.0, across_ - 1.0));
  cells.i1 = static_cast<int>(std::clamp(i1, 0.0, across_ - 1.0));
  cells.j0 = static_cast<int>(std::clamp(j0, 0.0, up_ - 1.0));
  cells.j1 = static_cast<int>(std::clamp(j1, 0.0, up_ - 1.0));
  return cells;
}

template <class Test>
bool TerrainClear::all_of(const Cells& c, const Test& test) const {
  for (int j = c.j0; j <= c.j1; ++j) {
    const Block* row = &blocks_[static_cast<std::size_t>(j) * static_cast<std::size_t>(across_)];
    for (int i = c.i0; i <= c.i1; ++i)
      if (!test(row[i])) return false;
  }
  return true;
}

bool TerrainClear::all_below(const Cells& c, double height) const {
  return all_of(c, [&](const Block& b) { return b.top <= height; });
}

bool TerrainClear::all_gentle(const Cells& c, const RunRange& run) const {
  return all_of(c, [&](const Block& b) { return steepest_rise(b, run) <= 1.0 - kSlack; });
}

bool TerrainClear::clear(const geom::Box3& from, const RunRange& run) const {
  if (from.lo.z >= all_.top + kSlack || steepest_rise(all_, run) <= 1.0 - kSlack) return true;
  const double fastest = std::hypot(std::max(std::abs(run.lo.x), std::abs(run.hi.x)),
                                    std::max(std::abs(run.lo.y), std::abs(run.hi.y)));
  const double rise = kBlock * grid_.cell / std::max(fastest, 1e-3);
  const double needed = all_.top + kSlack - from.lo.z;
  const int stretches = std::max(0, static_cast<int>(std::ceil(needed / rise)));
  const auto cells = [&](int k) {
    const double d0 = k * rise;
    const double d1 = std::min(d0 + rise, needed);
    return blocks_in(from.lo.x + std::min(d0 * run.lo.x, d1 * run.lo.x),
                     from.hi.x + std::max(d0 * run.hi.x, d1 * run.hi.x),
                     from.lo.y + std::min(d0 * run.lo.y, d1 * run.lo.y),
                     from.hi.y + std::max(d0 * run.hi.y, d1 * run.hi.y));
  };
  int gentle = 0;  // stretches in which no triangle rises as fast as the line
  for (int k = 0; k < stretches; ++k) {
    const Cells c = cells(k);
    if (c.none) return true;
    if (all_below(c, from.lo.z + k * rise - kSlack)) continue;
    for (; gentle <= k; ++gentle)
      if (!all_gentle(gentle == k ? c : cells(gentle), run)) return false;
  }
  return true;
}

}  // namespace hummock::shade
