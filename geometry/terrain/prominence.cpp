#include "geometry/terrain/prominence.h"

#include <algorithm>
#include <array>
#include <utility>

namespace hummock::geom {
namespace {

using Index = std::uint32_t;
constexpr Index kNone = 0xFFFFFFFFU;

// The three neighbours ahead in the grid's order; the other three are their opposites.
constexpr std::array<std::array<int, 2>, 3> kAhead{{{1, 0}, {-1, 1}, {0, 1}}};

struct Surface {
  const Grid& grid;
  const std::vector<double>& z;
  const std::vector<std::uint8_t>& chosen;
  double sign;

  double height(Index a) const { return sign * z[a]; }
  // Equal heights: the earlier node is the higher.
  bool above(Index a, Index b) const {
    return height(a) > height(b) || (height(a) == height(b) && a < b);
  }
  // use(neighbour's index) for the chosen neighbours; true when one is missing.
  template <class Use>
  bool neighbours(int i, int j, const Use& use) const {
    bool border = false;
    for (const auto& [di, dj] : kAhead)
      for (const int s : {1, -1}) {
        const bool inside =
            grid.holds(i + s * di, j + s * dj) && chosen[grid.index(i + s * di, j + s * dj)] != 0;
        border = border || !inside;
        if (inside) use(static_cast<Index>(grid.index(i + s * di, j + s * dj)));
      }
    return border;
  }
};

// A way from one top's basin to another's or out (to = kNone), at the height of its lower end.
struct Saddle {
  double height = 0.0;
  Index from = 0, to = 0;
};

// For each chosen node the top that steepest ascent leads to.
std::vector<Index> tops_of(const Surface& s) {
  std::vector<Index> up(s.grid.size(), kNone);
  for (int j = 0; j < s.grid.ny; ++j)
    for (int i = 0; i < s.grid.nx; ++i) {
      const auto at = static_cast<Index>(s.grid.index(i, j));
      if (s.chosen[at] == 0) continue;
      Index best = at;
      s.neighbours(i, j, [&](Index n) {
        if (s.above(n, best)) best = n;
      });
      up[at] = best;
    }
  for (Index k = 0; k < up.size(); ++k) {
    if (up[k] == kNone) continue;
    Index top = k;
    while (up[top] != top) top = up[top];
    for (Index at = k; up[at] != top;) at = std::exchange(up[at], top);
  }
  return up;
}

std::vector<Saddle> crossings(const Surface& s, const std::vector<Index>& top) {
  std::vector<Saddle> out;
  for (int j = 0; j < s.grid.ny; ++j)
    for (int i = 0; i < s.grid.nx; ++i) {
      const auto at = static_cast<Index>(s.grid.index(i, j));
      if (top[at] == kNone) continue;
      const bool border = s.neighbours(i, j, [&](Index n) {
        if (n > at && top[n] != top[at])
          out.push_back({std::min(s.height(at), s.height(n)), top[at], top[n]});
      });
      if (border) out.push_back({s.height(at), top[at], kNone});
    }
  std::sort(out.begin(), out.end(), [](const Saddle& a, const Saddle& b) {
    if (a.height != b.height) return a.height > b.height;
    return a.from != b.from ? a.from < b.from : a.to < b.to;
  });
  return out;
}

// Tops still standing; each points to the one that outlived it. `out` marks those joined to the
// border.
struct Standing {
  std::vector<Index>& next;
  std::vector<std::uint8_t> out;

  Index root(Index a) {
    while (next[a] != a) {
      next[a] = next[next[a]];
      a = next[a];
    }
    return a;
  }
};

}  // namespace

std::vector<Rise> rises(const Grid& grid, const std::vector<double>& z,
                        const std::vector<std::uint8_t>& chosen, double least, Way way) {
  const Surface s{grid, z, chosen, way == Way::up ? 1.0 : -1.0};
  std::vector<Index> top = tops_of(s);
  const std::vector<Saddle> ways = crossings(s, top);
  Standing standing{top, std::vector<std::uint8_t>(grid.size(), 0)};
  std::vector<Rise> found;
  const auto end = [&](Index a, double pass) {
    const double prominence = s.height(a) - pass;
    if (standing.out[a] == 0 && prominence >= least && prominence > 0.0)
      found.push_back({static_cast<int>(a % static_cast<Index>(grid.nx)),
                       static_cast<int>(a / static_cast<Index>(grid.nx)), prominence});
  };
  for (const Saddle& c : ways) {
    const Index a = standing.root(c.from);
    if (c.to == kNone) {
      end(a, c.height);
      standing.out[a] = 1;
      continue;
    }
    const Index b = standing.root(c.to);
    if (a == b) continue;
    // Outside is higher than any top.
    const bool a_lives = standing.out[a] != standing.out[b] ? standing.out[a] != 0 : s.above(a, b);
    end(a_lives ? b : a, c.height);
    top[a_lives ? b : a] = a_lives ? a : b;
  }
  std::sort(found.begin(), found.end(), [&](const Rise& a, const Rise& b) {
    if (a.prominence != b.prominence) return a.prominence > b.prominence;
    return grid.index(a.i, a.j) < grid.index(b.i, b.j);
  });
  return found;
}

}  // namespace hummock::geom
