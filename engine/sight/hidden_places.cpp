#include "engine/sight/hidden_places.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/usable/body_patches.h"

namespace hummock::sight {
namespace {

using usable::Offset;

struct Search {
  const geom::Grid& grid;
  const std::vector<std::uint8_t>& hidden;
  std::vector<char> taken;

  int column(std::size_t n) const {
    return static_cast<int>(n % static_cast<std::size_t>(grid.nx));
  }
  int row(std::size_t n) const { return static_cast<int>(n / static_cast<std::size_t>(grid.nx)); }

  std::vector<std::size_t> place_from(std::size_t start) {
    constexpr std::array<Offset, 4> kSteps{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};
    std::vector<std::size_t> nodes{start};
    taken[start] = 1;
    for (std::size_t k = 0; k < nodes.size(); ++k)
      for (const auto& [di, dj] : kSteps) {
        const int i = column(nodes[k]) + di, j = row(nodes[k]) + dj;
        if (!grid.holds(i, j)) continue;
        const std::size_t v = grid.index(i, j);
        if (hidden[v] == 0 || taken[v] != 0) continue;
        taken[v] = 1;
        nodes.push_back(v);
      }
    return nodes;
  }

  bool fits(std::size_t n, const std::vector<Offset>& shape) const {
    return std::all_of(shape.begin(), shape.end(), [&](const Offset& o) {
      const int i = column(n) + o.first, j = row(n) + o.second;
      return grid.holds(i, j) && hidden[grid.index(i, j)] != 0;
    });
  }

  bool can_lie(const std::vector<std::size_t>& nodes,
               const std::vector<std::vector<Offset>>& shapes) const {
    for (const std::size_t n : nodes)
      for (const auto& shape : shapes)
        if (shape.size() <= nodes.size() && fits(n, shape)) return true;
    return false;
  }

  Vec2 centre(const std::vector<std::size_t>& nodes) const {
    Vec2 mean;
    for (const std::size_t n : nodes) mean = mean + grid.node(column(n), row(n));
    mean = mean * (1.0 / static_cast<double>(nodes.size()));
    Vec2 best;
    double nearest = 1e300;
    for (const std::size_t n : nodes) {
      const Vec2 p = grid.node(column(n), row(n));
      const Vec2 off = p - mean;
      if (dot(off, off) >= nearest) continue;
      nearest = dot(off, off);
      best = p;
    }
    return best;
  }
};

}  // namespace

std::vector<HiddenPlace> hidden_places(const geom::Grid& grid,
                                       const std::vector<std::uint8_t>& hidden, double length,
                                       double width) {
  Search search{grid, hidden, std::vector<char>(grid.size(), 0)};
  const auto shapes = usable::lying_shapes(grid.cell, length, width);
  std::vector<HiddenPlace> places;
  for (std::size_t n = 0; n < grid.size(); ++n) {
    if (hidden[n] == 0 || search.taken[n] != 0) continue;
    const std::vector<std::size_t> nodes = search.place_from(n);
    places.push_back({search.centre(nodes),
                      static_cast<double>(nodes.size()) * grid.cell * grid.cell,
                      search.can_lie(nodes, shapes)});
  }
  std::stable_sort(places.begin(), places.end(), [](const HiddenPlace& a, const HiddenPlace& b) {
    return a.area_m2 > b.area_m2;
  });
  return places;
}

}  // namespace hummock::sight
