// The parts of a set of nodes that are one by steps along x and y.
#pragma once

#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "geometry/plan/grid.h"

namespace hummock::usable {

inline constexpr int kNone = -1;  // of no part; numeric, a mark
inline constexpr std::array<std::pair<int, int>, 4> kSteps{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};

// Numbers them; `joined(a, b)` of two neighbouring nodes
// of the set. Returns how many there are, from `first` on.
template <class Joined>
int number_parts(const geom::Grid& grid, const std::vector<std::uint8_t>& set, int first,
                 std::vector<int>& part, const Joined& joined) {
  int next = first;
  std::vector<std::size_t> open;
  for (std::size_t n = 0; n < grid.size(); ++n) {
    if (set[n] == 0 || part[n] != kNone) continue;
    part[n] = next;
    open.push_back(n);
    while (!open.empty()) {
      const std::size_t at = open.back();
      open.pop_back();
      const int i = static_cast<int>(at % static_cast<std::size_t>(grid.nx));
      const int j = static_cast<int>(at / static_cast<std::size_t>(grid.nx));
      for (const auto& [di, dj] : kSteps) {
        if (!grid.holds(i + di, j + dj)) continue;
        const std::size_t to = grid.index(i + di, j + dj);
        if (set[to] == 0 || part[to] != kNone || !joined(at, to)) continue;
        part[to] = next;
        open.push_back(to);
      }
    }
    ++next;
  }
  return next;
}

}  // namespace hummock::usable
