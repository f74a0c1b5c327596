#include "engine/leap/holds/hang_together.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <unordered_map>

#include "engine/leap/search/links.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec3;

namespace {

constexpr double kCube = 0.1;    // m; numeric, about a piece's size
constexpr double kTouch = 1e-4;  // m; more than rounding and the slivers that are left out

// Space in cubes, and what was put in each.
class Cubes {
 public:
  explicit Cubes(double side) : side_(side) {}

  template <class Visit>
  void each_near(const Box3& box, double within, const Visit& visit) const {
    const Vec3 by{within, within, within};
    each_cube({box.lo - by, box.hi + by}, [&](std::uint64_t key) {
      const auto it = of_.find(key);
      if (it == of_.end()) return;
      for (const std::size_t k : it->second) visit(k);
    });
  }
  void add(const Box3& box, std::size_t number) {
    each_cube(box, [&](std::uint64_t key) { of_[key].push_back(number); });
  }

 private:
  template <class Visit>
  void each_cube(const Box3& box, const Visit& visit) const {
    const auto cube = [&](double v) { return static_cast<std::int64_t>(std::floor(v / side_)); };
    for (std::int64_t x = cube(box.lo.x); x <= cube(box.hi.x); ++x)
      for (std::int64_t y = cube(box.lo.y); y <= cube(box.hi.y); ++y)
        for (std::int64_t z = cube(box.lo.z); z <= cube(box.hi.z); ++z) visit(key_of(x, y, z));
  }
  // Cubes far apart may share a key, which costs time only.
  static std::uint64_t key_of(std::int64_t x, std::int64_t y, std::int64_t z) {
    constexpr std::uint64_t kBits = 21;
    const auto low = [](std::int64_t v) {
      return static_cast<std::uint64_t>(v) & ((1ULL << kBits) - 1ULL);
    };
    return low(x) << 2 * kBits | low(y) << kBits | low(z);
  }

  double side_;  // m
  std::unordered_map<std::uint64_t, std::vector<std::size_t>> of_;
};

class Joiner {
 public:
  Joiner(const std::vector<Hold>& holds, const Across& across, const geom::RayScene& scene)
      : holds_(holds), across_(across), scene_(scene), sets_(holds.size()), count_(holds.size()) {}

  HangTogether run(const std::vector<Box3>& covered) {
    std::vector<std::size_t> all(holds_.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    join_within(kTouch, all, [](const Hold&, const Hold&) { return true; });
    if (count_ == 1) return {std::move(sets_), false};
    const std::vector<std::size_t> edge = beside(covered);
    join_within(across_.reach, edge, [&](const Hold& a, const Hold& b) { return reaches(a, b); });
    join_within(across_.leap, edge, [&](const Hold& a, const Hold& b) { return leaps(a, b); });
    if (count_ > 1) join_crumbs();
    return {std::move(sets_), true};
  }

 private:
  // Those that touch what is covered.
  std::vector<std::size_t> beside(const std::vector<Box3>& covered) const {
    Cubes cubes(kCube);
    for (std::size_t k = 0; k < covered.size(); ++k) cubes.add(covered[k], k);
    std::vector<std::size_t> found;
    for (std::size_t k = 0; k < holds_.size(); ++k) {
      bool touches = false;
      cubes.each_near(holds_[k].piece.cell, kTouch, [&](std::size_t c) {
        touches = touches || box_gap2(holds_[k].piece.cell, covered[c]) <= kTouch * kTouch;
      });
      if (touches) found.push_back(k);
    }
    return found;
  }

  template <class Joins>
  void join_within(double gap, const std::vector<std::size_t>& among, const Joins& joins) {
    Cubes cubes(std::max(gap, kCube));
    for (const std::size_t k : among) {
      if (count_ == 1) return;
      const Box3& box = holds_[k].piece.cell;
      cubes.each_near(box, gap, [&](std::size_t other) {
        if (sets_.root(k) == sets_.root(other)) return;
        if (box_gap2(box, holds_[other].piece.cell) > gap * gap) return;
        if (!joins(holds_[k], holds_[other])) return;
        sets_.join(k, other);
        --count_;
      });
      cubes.add(box, k);
    }
  }

  void join_crumbs() {
    std::map<std::size_t, Box3> boxes;
    for (std::size_t k = 0; k < holds_.size(); ++k) boxes[sets_.root(k)].add(holds_[k].piece.cell);
    std::vector<char> crumb(holds_.size(), 0);
    for (std::size_t k = 0; k < holds_.size(); ++k) {
      const Vec3 size = boxes[sets_.root(k)].hi - boxes[sets_.root(k)].lo;
      crumb[k] = std::max({size.x, size.y, size.z}) <= kCrumb ? 1 : 0;
    }
    for (const auto& [root, box] : boxes) {
      if (crumb[root] == 0) continue;
      std::size_t nearest = holds_.size();
      double least = 1e300;
      for (std::size_t k = 0; k < holds_.size(); ++k) {
        const double gap = crumb[k] != 0 ? 1e300 : box_gap2(box, holds_[k].piece.cell);
        if (gap < least) least = gap, nearest = k;
      }
      if (nearest < holds_.size()) sets_.join(root, nearest);
    }
  }

  bool reaches(const Hold& a, const Hold& b) {
    const double r = across_.reach;
    return comes_across(a, b, {0.0, 0.02, 0.5 * r, r, 2.0 * r});
  }

  bool leaps(const Hold& a, const Hold& b) {
    if (a.piece.cling || b.piece.cling) return false;
    const double h = across_.leap;
    return comes_across(a, b, {0.0, 0.25 * h, 0.5 * h, 0.75 * h, h});
  }

  bool comes_across(const Hold& a, const Hold& b, const std::array<double, 5>& ways) {
    if (tried_ >= kMostWays) return true;
    return std::any_of(ways.begin(), ways.end(), [&](double out) {
      ++tried_;
      const Vec3 over_a = a.from + a.normal * out, over_b = b.from + b.normal * out;
      return scene_.segment_free(over_a, over_b) && scene_.segment_free(a.from, over_a) &&
             scene_.segment_free(over_b, b.from);
    });
  }

  const std::vector<Hold>& holds_;
  const Across& across_;
  const geom::RayScene& scene_;
  geom::DisjointSets sets_;
  std::size_t count_;  // sets
  std::int64_t tried_ = 0;
};

}  // namespace

HangTogether hang_together(const std::vector<Hold>& holds, const std::vector<Box3>& covered,
                           const Across& across, const geom::RayScene& scene) {
  return Joiner(holds, across, scene).run(covered);
}

}  // namespace hummock::leap
