#include "engine/entry/narrow_way.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "engine/entry/level_cuts.h"
#include "geometry/plan/polygon.h"

namespace hummock::entry {

namespace {

// The way of the middle over the cells, each looked at when it is come to: what stands about it at
// each height is found by boxes of cells.
class Floor {
 public:
  Floor(const Model& model, const Doorway& doorway)
      : model_(model),
        doorway_(doorway),
        cell_(std::max(doorway.head / kParts, 2.0 * doorway.reach / kMostCells)),
        half_(static_cast<int>(std::ceil(doorway.reach / cell_))),
        side_(2 * half_ + 1),
        boxes_((side_ + kBox - 1) / kBox),
        radius_(std::max(0.5 * doorway.head - 0.75 * cell_, 0.25 * doorway.head)),
        been_(static_cast<std::size_t>(side_) * static_cast<std::size_t>(side_), 0),
        in_box_(static_cast<std::size_t>(boxes_) * static_cast<std::size_t>(boxes_)) {}

  // What is free at one height is free. Height after height.
  void lay(const std::vector<Corners>& pieces, double height) {
    std::array<Vec2, 2> ends;
    for (const Corners& c : pieces) {
      if (cut_level(c, height, ends)) stand(ends[0], ends[1]);
    }
    ++heights_;
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
  static constexpr int kBox = 32;  // cells; numeric, a setting

  // What a level cut gives, with the cells that may be near it.
  struct Standing {
    Near near;
    int i0, i1, j0, j1;
  };
  struct AtHeight {
    int height = 0;
    std::uint32_t standing = 0;
  };

  int index_of(double v) const {
    return std::clamp(static_cast<int>(std::lround(v / cell_)), -half_, half_);
  }
  std::size_t number(int i, int j) const {
    return static_cast<std::size_t>(j + half_) * static_cast<std::size_t>(side_) +
           static_cast<std::size_t>(i + half_);
  }
  std::vector<AtHeight>& box(int i, int j) {
    return in_box_[static_cast<std::size_t>(j) * static_cast<std::size_t>(boxes_) +
                   static_cast<std::size_t>(i)];
  }
  Vec2 place(int i, int j) const {
    return doorway_.middle + doorway_.along * (i * cell_) - left_of(doorway_.along) * (j * cell_);
  }

  void stand(Vec2 a, Vec2 b) {
    const auto [x0, x1] = std::minmax(a.x, b.x);
    const auto [y0, y1] = std::minmax(a.y, b.y);
    if (x1 < -doorway_.reach || x0 > doorway_.reach) return;
    if (y1 < -doorway_.reach || y0 > doorway_.reach) return;
    const Standing s{Near(a, b, radius_), index_of(x0 - radius_), index_of(x1 + radius_),
                     index_of(y0 - radius_), index_of(y1 + radius_)};
    const AtHeight here{heights_, static_cast<std::uint32_t>(standing_.size())};
    standing_.push_back(s);
    for (int j = (s.j0 + half_) / kBox; j <= (s.j1 + half_) / kBox; ++j)
      for (int i = (s.i0 + half_) / kBox; i <= (s.i1 + half_) / kBox; ++i)
        box(i, j).push_back(here);
  }

  bool near_it(const Standing& s, int i, int j) const {
    return i >= s.i0 && i <= s.i1 && j >= s.j0 && j <= s.j1 && s.near.holds({i * cell_, j * cell_});
  }

  // At some height nothing is near.
  bool free(int i, int j) {
    const std::vector<AtHeight>& about = box((i + half_) / kBox, (j + half_) / kBox);
    int next = 0;  // the least height that may be free
    for (std::size_t k = 0; k < about.size(); ++k) {
      if (about[k].height < next) continue;
      if (about[k].height > next) return true;
      if (near_it(standing_[about[k].standing], i, j)) ++next;
    }
    return next < heights_;
  }

  void enter(int i, int j, std::vector<std::pair<int, int>>& open) {
    char& been = been_[number(i, j)];
    if (been != 0) return;
    been = 1;
    if (!free(i, j) || geom::contains(model_.outline, place(i, j))) return;
    open.emplace_back(i, j);
  }

  const Model& model_;
  const Doorway& doorway_;
  double cell_;  // m
  int half_, side_, boxes_;
  double radius_;  // m
  int heights_ = 0;
  std::vector<char> been_;
  std::vector<Standing> standing_;
  std::vector<std::vector<AtHeight>> in_box_;
};

}  // namespace

bool head_gets_away(const Model& model, const std::vector<geom::Mesh>& things,
                    const Doorway& doorway) {
  const std::vector<Corners> pieces = pieces_of(model, things, doorway, doorway.reach + kPiece);
  Floor floor(model, doorway);
  for (const double height : doorway.heights) floor.lay(pieces, height);
  return floor.leads_to_the_rim();
}

}  // namespace hummock::entry
