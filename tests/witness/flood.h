// The flood over footholds behind way_out.h: what it has gained, and the moves still to try.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <unordered_map>
#include <vector>

#include "tests/witness/way_out.h"

namespace hummock::witness {

inline constexpr double kInfinite = std::numeric_limits<double>::infinity();
inline constexpr int kBuckets = 1024;
inline constexpr double kRim = 0.6;  // m, from the end of the modelled ground

bool inside(const std::vector<Vec2>& outline, Vec2 p);

// Footholds by cubes of `side`.
class Near {
 public:
  Near(const std::vector<Foothold>& all, double side) : side_(side) {
    for (std::size_t k = 0; k < all.size(); ++k)
      cells_[key(cell(all[k].at.x), cell(all[k].at.y), cell(all[k].at.z))].push_back(
          static_cast<int>(k));
  }
  template <class Use>
  void around(Vec3 p, const Use& use) const {
    for (int i = -1; i <= 1; ++i)
      for (int j = -1; j <= 1; ++j)
        for (int k = -1; k <= 1; ++k) {
          const auto found = cells_.find(key(cell(p.x) + i, cell(p.y) + j, cell(p.z) + k));
          if (found == cells_.end()) continue;
          for (const int n : found->second) use(n);
        }
  }

 private:
  std::int64_t cell(double v) const { return static_cast<std::int64_t>(std::floor(v / side_)); }
  static std::int64_t key(std::int64_t i, std::int64_t j, std::int64_t k) {
    return ((i + 100000) * 400009 + (j + 100000)) * 400009 + (k + 100000);
  }
  double side_;
  std::unordered_map<std::int64_t, std::vector<int>> cells_;
};

struct Come {
  double demand = kInfinite;  // m
  int from = -1;
  MoveKind kind = MoveKind::start;
  double effort = 0.0;
};

struct Try {
  int from, to;
  float effort, bulge;
  bool least;  // the flight of least effort: the others follow when it is blocked
};

class Flood {
 public:
  Flood(const Yard& yard, const std::vector<Vec2>& outline, const Animal& animal,
        const Search& search)
      : yard_(yard),
        outline_(outline),
        animal_(animal),
        search_(search),
        all_(footholds(yard, animal, search.spacing)),
        near_(all_, neighbour()),
        come_(all_.size()),
        tries_(all_.size(), 0),
        buckets_(kBuckets) {
    for (const Vec3& p : yard.pieces[static_cast<std::size_t>(yard.ground_piece)].corners)
      rim_.add(p);
  }
  WayOut run();

 private:
  double neighbour() const {
    return std::max({1.6 * search_.spacing.ground, 1.6 * search_.spacing.faces, animal_.reach});
  }
  bool out_there(Vec3 p) const;
  std::vector<int> ground_inside() const;
  std::vector<int> walked_from(int seed, std::vector<char>& seen) const;

  void gain(int n, const Come& by);
  void spread(int n);
  void effortless(int n);
  void step_off(int n);
  void fall(int n, Vec3 from);
  void land(int n, const Struck& where, MoveKind kind, double effort);

  std::optional<MoveKind> moves(int a, int b) const;
  bool walks(const Foothold& a, const Foothold& b) const;
  bool climbs(const Foothold& a, const Foothold& b) const;
  bool reaches(const Foothold& a, const Foothold& b) const;
  bool free_way(const Foothold& a, const Foothold& b) const;

  void aim_all(int n);
  double cost(int n) const;
  bool is_edge(int n) const { return all_[static_cast<std::size_t>(n)].kind == Holding::crest; }
  void push(const Try& t, double demand);
  void attempt(const Try& t);
  void other_flights(const Try& t);
  double tightened(const Try& t) const;
  void shoot();
  void shot(int n, double azimuth, double slope, double effort);
  WayOut answer() const;

  const Yard& yard_;
  const std::vector<Vec2>& outline_;
  const Animal& animal_;
  const Search& search_;
  std::vector<Foothold> all_;
  Near near_;
  std::vector<Come> come_;
  std::vector<int> tries_;
  std::vector<std::vector<Try>> buckets_;
  std::vector<int> fresh_;  // gained, not spread yet
  geom::Box3 rim_;
  int exit_ = -1;
  double best_ = kInfinite;
  long flights_ = 0;
};

}  // namespace hummock::witness
