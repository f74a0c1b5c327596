#include "tests/entry/every_cell.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>

#include "engine/entry/level_cuts.h"
#include "geometry/plan/polygon.h"

namespace hummock::entry::test_every_cell {

namespace {

class Floor {
 public:
  Floor(const Model& model, const Doorway& doorway)
      : model_(model),
        doorway_(doorway),
        cell_(std::max(doorway.head / kParts, 2.0 * doorway.reach / kMostCells)),
        half_(static_cast<int>(std::ceil(doorway.reach / cell_))),
        side_(2 * half_ + 1),
        radius_(std::max(0.5 * doorway.head - 0.75 * cell_, 0.25 * doorway.head)),
        free_(static_cast<std::size_t>(side_) * static_cast<std::size_t>(side_), 0) {}

  // What is free at one height is free.
  void lay(const std::vector<Corners>& pieces, double height) {
    std::vector<char> taken(free_.size(), 0);
    std::array<Vec2, 2> ends;
    for (const Corners& c : pieces) {
      if (cut_level(c, height, ends)) take(ends[0], ends[1], taken);
    }
    for (std::size_t k = 0; k < free_.size(); ++k) {
      if (taken[k] == 0) free_[k] = 1;
    }
  }

  bool leads_to_the_rim() {
    std::vector<std::pair<int, int>> open;
    for (const double start : doorway_.starts) {
      for (int k = 1; k * cell_ <= doorway_.through; ++k)
        enter(index_of(start), index_of(k * cell_), open);
    }
    while (!open.empty()) {
      const auto [i, j] = open.back();
      open.pop_back();
      if (std::max(std::abs(i), std::abs(j)) == half_) return true;
      for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        enter(i + di, j + dj, open);
      }
    }
    return false;
  }

 private:
  int index_of(double v) const {
    return std::clamp(static_cast<int>(std::lround(v / cell_)), -half_, half_);
  }
  std::size_t number(int i, int j) const {
    return static_cast<std::size_t>(j + half_) * static_cast<std::size_t>(side_) +
           static_cast<std::size_t>(i + half_);
  }
  Vec2 place(int i, int j) const {
    return doorway_.middle + doorway_.along * (i * cell_) - left_of(doorway_.along) * (j * cell_);
  }

  void take(Vec2 a, Vec2 b, std::vector<char>& taken) const {
    const auto [x0, x1] = std::minmax(a.x, b.x);
    const auto [y0, y1] = std::minmax(a.y, b.y);
    if (x1 < -doorway_.reach || x0 > doorway_.reach) return;
    if (y1 < -doorway_.reach || y0 > doorway_.reach) return;
    const int i0 = index_of(x0 - radius_), i1 = index_of(x1 + radius_);
    const int j0 = index_of(y0 - radius_), j1 = index_of(y1 + radius_);
    const Near near(a, b, radius_);
    for (int j = j0; j <= j1; ++j) {
      for (int i = i0; i <= i1; ++i) {
        const std::size_t k = number(i, j);
        if (taken[k] != 0 || free_[k] != 0) continue;  // what was free stays so
        if (near.holds({i * cell_, j * cell_})) taken[k] = 1;
      }
    }
  }

  void enter(int i, int j, std::vector<std::pair<int, int>>& open) {
    char& cell = free_[number(i, j)];
    if (cell == 0 || geom::contains(model_.outline, place(i, j))) return;
    cell = 0;  // been there
    open.emplace_back(i, j);
  }

  const Model& model_;
  const Doorway& doorway_;
  double cell_;  // m
  int half_, side_;
  double radius_;  // m
  std::vector<char> free_;
};

}  // namespace

bool head_gets_away(const Model& model, const std::vector<geom::Mesh>& things,
                    const Doorway& doorway) {
  const std::vector<Corners> pieces =
      pieces_of(model, things, doorway, std::numeric_limits<double>::infinity());
  Floor floor(model, doorway);
  for (const double height : doorway.heights) floor.lay(pieces, height);
  return floor.leads_to_the_rim();
}

}  // namespace hummock::entry::test_every_cell
