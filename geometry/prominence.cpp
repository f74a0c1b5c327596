#include "geometry/prominence.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace hummock::geom {
namespace {

using Index = std::uint32_t;
constexpr Index kUnset = 0xFFFFFFFFU;

constexpr std::array<std::array<int, 2>, 6> kNeighbours{
    {{1, 0}, {0, 1}, {-1, 1}, {-1, 0}, {0, -1}, {1, -1}}};

struct Forest {
  std::vector<Index> parent;        // kUnset until the node is flooded
  std::vector<Index> top;           // of a root: its highest node
  std::vector<std::uint8_t> ended;  // of a root: joined to the border

  explicit Forest(std::size_t n) : parent(n, kUnset), top(n, kUnset), ended(n, 0) {}

  Index root(Index a) {
    while (parent[a] != a) {
      parent[a] = parent[parent[a]];
      a = parent[a];
    }
    return a;
  }
};

struct Flood {
  const Grid& grid;
  const std::vector<double>& z;
  const std::vector<std::uint8_t>& chosen;
  double least;
  Forest forest;
  std::vector<Rise> found;

  // The flood with this root meets higher ground at height `pass`.
  void end(Index root, double pass) {
    if (forest.ended[root] != 0) return;
    const Index top = forest.top[root];
    const double prominence = z[top] - pass;
    if (prominence >= least && prominence > 0.0)
      found.push_back({static_cast<int>(top % static_cast<Index>(grid.nx)),
                       static_cast<int>(top / static_cast<Index>(grid.nx)), prominence});
  }

  // The higher of two tops; the earlier node where equal.
  bool above(Index a, Index b) const { return z[a] > z[b] || (z[a] == z[b] && a < b); }

  void join(Index at, Index other) {
    const Index a = forest.root(at);
    const Index b = forest.root(other);
    if (a == b) return;
    // The border is higher than any top.
    const bool a_wins = forest.ended[a] != forest.ended[b] ? forest.ended[a] != 0
                                                           : above(forest.top[a], forest.top[b]);
    const Index winner = a_wins ? a : b;
    const Index loser = a_wins ? b : a;
    end(loser, z[at]);
    forest.parent[loser] = winner;
  }

  void flood(Index at) {
    forest.parent[at] = at;
    forest.top[at] = at;
    const int i = static_cast<int>(at % static_cast<Index>(grid.nx));
    const int j = static_cast<int>(at / static_cast<Index>(grid.nx));
    bool border = false;
    for (const auto& [di, dj] : kNeighbours) {
      const bool inside = grid.holds(i + di, j + dj) && chosen[grid.index(i + di, j + dj)] != 0;
      border = border || !inside;
      if (!inside) continue;
      const auto n = static_cast<Index>(grid.index(i + di, j + dj));
      if (forest.parent[n] != kUnset) join(at, n);
    }
    if (!border) return;
    const Index root = forest.root(at);
    end(root, z[at]);
    forest.ended[root] = 1;
  }
};

}  // namespace

std::vector<Rise> rises(const Grid& grid, const std::vector<double>& z,
                        const std::vector<std::uint8_t>& chosen, double least) {
  std::vector<Index> order;
  for (std::size_t k = 0; k < grid.size(); ++k)
    if (chosen[k] != 0) order.push_back(static_cast<Index>(k));
  std::sort(order.begin(), order.end(),
            [&](Index a, Index b) { return z[a] != z[b] ? z[a] > z[b] : a < b; });
  Flood flood{grid, z, chosen, least, Forest(grid.size()), {}};
  for (const Index at : order) flood.flood(at);
  std::sort(flood.found.begin(), flood.found.end(), [&](const Rise& a, const Rise& b) {
    if (a.prominence != b.prominence) return a.prominence > b.prominence;
    return grid.index(a.i, a.j) < grid.index(b.i, b.j);
  });
  return flood.found;
}

}  // namespace hummock::geom
