#include "engine/usable/body_patches.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "geometry/plan/distance_grid.h"

namespace hummock::usable {
namespace {

using geom::Vec2;

constexpr int kDirections = 12;

class Patches {
 public:
  Patches(const geom::Grid& grid, const std::vector<std::uint8_t>& standing,
          std::vector<std::uint8_t> middles, double length, double width)
      : grid_(grid),
        standing_(standing),
        left_(std::move(middles)),
        shapes_(lying_shapes(grid.cell, length, width)) {}

  // Middles of the patches it can lie in.
  std::vector<std::uint8_t> fitting() {
    std::vector<std::uint8_t> out(grid_.size(), 0);
    for (std::size_t n = 0; n < grid_.size(); ++n) {
      if (left_[n] == 0) continue;
      const std::vector<std::size_t> patch = take_from(n);
      if (std::none_of(patch.begin(), patch.end(), [&](std::size_t m) { return can_lie(m); }))
        continue;
      for (const std::size_t m : patch) out[m] = 1;
    }
    return out;
  }

 private:
  int column(std::size_t n) const {
    return static_cast<int>(n % static_cast<std::size_t>(grid_.nx));
  }
  int row(std::size_t n) const { return static_cast<int>(n / static_cast<std::size_t>(grid_.nx)); }

  std::vector<std::size_t> take_from(std::size_t start) {
    constexpr std::array<Offset, 4> kSteps{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};
    std::vector<std::size_t> nodes{start};
    left_[start] = 0;
    for (std::size_t k = 0; k < nodes.size(); ++k) {
      const int column_k = column(nodes[k]), row_k = row(nodes[k]);
      for (const auto& [di, dj] : kSteps) {
        const int i = column_k + di, j = row_k + dj;
        if (!grid_.holds(i, j) || left_[grid_.index(i, j)] == 0) continue;
        left_[grid_.index(i, j)] = 0;
        nodes.push_back(grid_.index(i, j));
      }
    }
    return nodes;
  }

  bool covers_standing(std::size_t n, const std::vector<Offset>& shape) const {
    return std::all_of(shape.begin(), shape.end(), [&](const Offset& o) {
      const int i = column(n) + o.first, j = row(n) + o.second;
      return grid_.holds(i, j) && standing_[grid_.index(i, j)] != 0;
    });
  }

  bool can_lie(std::size_t n) const {
    return std::any_of(shapes_.begin(), shapes_.end(),
                       [&](const auto& shape) { return covers_standing(n, shape); });
  }

  const geom::Grid& grid_;
  const std::vector<std::uint8_t>& standing_;
  std::vector<std::uint8_t> left_;
  std::vector<std::vector<Offset>> shapes_;
};

std::vector<std::uint8_t> others(const std::vector<std::uint8_t>& mask) {
  std::vector<std::uint8_t> out(mask.size());
  std::transform(mask.begin(), mask.end(), out.begin(),
                 [](std::uint8_t m) { return static_cast<std::uint8_t>(m == 0); });
  return out;
}

}  // namespace

std::vector<std::vector<Offset>> lying_shapes(double cell, double length, double width) {
  std::vector<std::vector<Offset>> shapes;
  for (int k = 0; k < kDirections; ++k) {
    const double turn = geom::kPi * k / kDirections;
    const Vec2 u{std::cos(turn), std::sin(turn)}, v = geom::left_of(u);
    const int along = std::max(1, static_cast<int>(std::ceil(length / (0.5 * cell))));
    const int across = std::max(1, static_cast<int>(std::ceil(width / (0.5 * cell))));
    std::set<Offset> covered;
    for (int a = 0; a <= along; ++a)
      for (int b = 0; b <= across; ++b) {
        const Vec2 p = u * ((static_cast<double>(a) / along - 0.5) * length) +
                       v * ((static_cast<double>(b) / across - 0.5) * width);
        covered.emplace(static_cast<int>(std::lround(p.x / cell)),
                        static_cast<int>(std::lround(p.y / cell)));
      }
    shapes.emplace_back(covered.begin(), covered.end());
  }
  return shapes;
}

std::vector<std::uint8_t> body_patches(const geom::Grid& grid,
                                       const std::vector<std::uint8_t>& standing, double length,
                                       double width) {
  const double half = 0.5 * (width + grid.cell) - 1e-9;
  const std::vector<double> room =
      geom::distance_to_marked(grid, others(standing), geom::Beyond::marked);
  std::vector<std::uint8_t> middles(grid.size(), 0);
  for (std::size_t n = 0; n < grid.size(); ++n) middles[n] = room[n] >= half ? 1 : 0;
  const std::vector<std::uint8_t> fitting =
      Patches(grid, standing, std::move(middles), length, width).fitting();
  const std::vector<double> from = geom::distance_to_marked(grid, fitting, geom::Beyond::unmarked);
  std::vector<std::uint8_t> out(grid.size(), 0);
  for (std::size_t n = 0; n < grid.size(); ++n)
    out[n] = standing[n] != 0 && from[n] <= std::sqrt(2.0) * half + 1e-6 ? 1 : 0;
  return out;
}

}  // namespace hummock::usable
