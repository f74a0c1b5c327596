#include "engine/entry/narrow_way.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

using Corners = std::array<Vec3, 3>;  // x along the gate, y outwards, z above the ground

void add_pieces(const Corners& c, std::vector<Corners>& pieces) {
  std::size_t longest = 0;
  std::array<double, 3> side{};
  for (std::size_t k = 0; k < 3; ++k) side[k] = geom::distance(c[k], c[(k + 1) % 3]);
  for (std::size_t k = 1; k < 3; ++k) {
    if (side[k] > side[longest]) longest = k;
  }
  if (side[longest] <= kPiece) {
    pieces.push_back(c);
    return;
  }
  const Vec3 a = c[longest], b = c[(longest + 1) % 3], rest = c[(longest + 2) % 3];
  const Vec3 middle = lerp(a, b, 0.5);
  add_pieces({a, middle, rest}, pieces);
  add_pieces({middle, b, rest}, pieces);
}

// The two points at which the level plane cuts the triangle; none when it does not.
bool cut_level(const Corners& c, double height, std::array<Vec2, 2>& ends) {
  std::size_t n = 0;
  for (std::size_t k = 0; k < 3 && n < 2; ++k) {
    const Vec3 p = c[k], q = c[(k + 1) % 3];
    if ((p.z >= height) == (q.z >= height)) continue;
    ends[n++] = xy(lerp(p, q, (height - p.z) / (q.z - p.z)));
  }
  return n == 2;
}

// Places nearer to a segment than a distance; most without a root.
class Near {
 public:
  Near(Vec2 a, Vec2 b, double distance)
      : a_(a), b_(b), distance_(distance), ab_(b - a), l2_(dot(ab_, ab_)) {}

  bool holds(Vec2 p) const {
    constexpr double kRounding = 1e-9;  // more than squaring may be off
    const double t = l2_ > 0.0 ? std::clamp(dot(p - a_, ab_) / l2_, 0.0, 1.0) : 0.0;
    const Vec2 off = p - (a_ + ab_ * t);
    const double d2 = dot(off, off), r2 = distance_ * distance_;
    if (std::abs(d2 - r2) > kRounding * r2) return d2 < r2;
    return geom::distance_to_segment(p, a_, b_) < distance_;
  }

 private:
  Vec2 a_, b_;
  double distance_;
  Vec2 ab_;
  double l2_;
};

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

bool within_reach(const Corners& c, double reach) {
  const auto [x0, x1] = std::minmax({c[0].x, c[1].x, c[2].x});
  const auto [y0, y1] = std::minmax({c[0].y, c[1].y, c[2].y});
  return x1 >= -reach && x0 <= reach && y1 >= -reach && y0 <= reach;
}

std::vector<Corners> pieces_of(const Model& model, const std::vector<geom::Mesh>& things,
                               const Doorway& doorway) {
  const Vec2 out = -left_of(doorway.along);
  const auto local = [&](Vec3 p) {
    const Vec2 d = xy(p) - doorway.middle;
    return Vec3{dot(d, doorway.along), dot(d, out), p.z};
  };
  std::vector<Corners> pieces;
  for (const geom::Mesh& mesh : things) {
    for (const geom::Triangle& t : mesh.triangles) {
      const Corners c{local(mesh.vertices[t[0]]), local(mesh.vertices[t[1]]),
                      local(mesh.vertices[t[2]])};
      if (within_reach(c, doorway.reach + kPiece)) add_pieces(c, pieces);
    }
  }
  for (Corners& c : pieces) {
    for (Vec3& p : c) {
      const Vec2 at = doorway.middle + doorway.along * p.x + out * p.y;
      p.z -= geom::height_at(model.ground, at);
    }
  }
  return pieces;
}

}  // namespace

bool head_gets_away(const Model& model, const std::vector<geom::Mesh>& things,
                    const Doorway& doorway) {
  const std::vector<Corners> pieces = pieces_of(model, things, doorway);
  Floor floor(model, doorway);
  for (const double height : doorway.heights) floor.lay(pieces, height);
  return floor.leads_to_the_rim();
}

}  // namespace hummock::entry
