#include "engine/keepers/floor_walk.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <queue>
#include <unordered_set>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::keepers {
namespace {

constexpr double kRounding = 0.005;  // m, of the width and the headroom
constexpr int kRim = 8;              // places round the disc, opposite ones half of them apart

struct Floor {
  double z = 0.0;  // m above datum
  bool ground = true;
};

class Feet {
 public:
  Feet(const Yard& yard, const Errand& errand, Walk& walk)
      : yard_(yard),
        errand_(errand),
        walk_(walk),
        radius_(0.5 * errand.walker.width - kRounding),
        riser_(errand.walker.riser + kRounding),
        uneven_(std::max(riser_, errand.walker.slope * radius_ + kRounding)),
        rise_(std::max(riser_, errand.walker.slope * 2.0 * radius_ + kRounding)) {}

  // Can it stand at p, coming from a floor at z? Then z is that at p.
  bool stand(Vec2 p, double& z) {
    const Floor floor = floor_at(p, z + riser_);
    if (floor.z > z + riser_ || floor.z < z - riser_) return blocked(kGroundItself);
    const int part = yard_.obstacles.in_the_disc(
        p, radius_, floor.z + riser_, floor.z + std::max(riser_, kWadedThrough),
        floor.z + errand_.height - kRounding, errand_.leaves, errand_.left_out);
    if (part >= 0) return blocked(part);
    if (yard_.ground.water_depth(p, floor.z) > 0.0) return blocked(kWater);
    if (!even(p, floor)) return blocked(kGroundItself);
    z = floor.z;
    return true;
  }

 private:
  bool blocked(int by) {
    ++walk_.in_the_way[by];
    return false;
  }

  // The higher of ground and things, of things none above `most`.
  Floor floor_at(Vec2 p, double most) const {
    const double ground = geom::height_at(yard_.model.ground, p);
    const double top = yard_.obstacles.top_at(p, most, errand_.left_out);
    return top > ground ? Floor{top, false} : Floor{ground, true};
  }

  bool even(Vec2 p, const Floor& floor) const {
    std::array<Floor, kRim> rim;
    for (int k = 0; k < kRim; ++k) {
      const double turn = 2.0 * geom::kPi * k / kRim;
      const Vec2 q = p + Vec2{std::cos(turn), std::sin(turn)} * radius_;
      rim[static_cast<std::size_t>(k)] = floor_at(q, floor.z + uneven_);
      if (std::abs(rim[static_cast<std::size_t>(k)].z - floor.z) > uneven_) return false;
    }
    for (std::size_t k = 0; 2 * k < kRim; ++k) {
      const Floor a = rim[k], b = rim[k + kRim / 2];
      if (floor.ground && a.ground && b.ground && std::abs(a.z - b.z) > rise_) return false;
    }
    return true;
  }

  const Yard& yard_;
  const Errand& errand_;
  Walk& walk_;
  double radius_, riser_, uneven_, rise_;  // m
};

struct Node {
  int i = 0, j = 0;  // along the doorway, and out of it
  double z = 0.0;    // m above datum
};
struct Next {
  double left = 0.0;
  int turn = 0;  // of those as near the earlier
  Node node;
  bool operator<(const Next& o) const { return left != o.left ? left > o.left : turn > o.turn; }
};

class Spread {
 public:
  Spread(const Yard& yard, const Doorway& from, const Errand& errand)
      : yard_(yard),
        errand_(errand),
        feet_(yard, errand, walk_),
        middle_(lerp(from.a, from.b, 0.5)),
        along_(geom::unit(from.b - from.a)) {
    const int n = static_cast<int>(std::max(0.0, 0.5 * from.width()) / kApart);
    for (int i = -n; i <= n; ++i) {
      const double z = geom::height_at(yard_.model.ground, place(i, 0));
      come_to({i, 0, z}, true);
    }
  }

  Walk go() {
    while (!open_.empty() && walk_.found == Found::no) {
      const Node at = open_.top().node;
      open_.pop();
      for (const auto& [i, j] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}})
        come_to({at.i + i, at.j + j, at.z}, false);
      if (static_cast<int>(seen_.size()) > kMostNodes && walk_.found == Found::no)
        walk_.found = Found::unknown;
    }
    return walk_;
  }

 private:
  Vec2 place(int i, int j) const {
    return middle_ + along_ * (i * kApart) - left_of(along_) * (j * kApart);
  }

  void come_to(Node n, bool in_the_doorway) {
    const auto key = static_cast<std::uint64_t>(static_cast<std::uint32_t>(n.i)) << 32U |
                     static_cast<std::uint32_t>(n.j);
    const Vec2 p = place(n.i, n.j);
    if (seen_.count(key) > 0 || (!in_the_doorway && !errand_.may_be(p))) return;
    seen_.insert(key);
    if (!feet_.stand(p, n.z)) return;
    const double left = errand_.left(p);
    if (left <= 0.0) walk_.found = Found::yes;
    open_.push({left, turn_++, n});
  }

  const Yard& yard_;
  const Errand& errand_;
  Walk walk_;
  Feet feet_;
  Vec2 middle_, along_;
  std::unordered_set<std::uint64_t> seen_;
  std::priority_queue<Next> open_;
  int turn_ = 0;
};

}  // namespace

Walk walk_from(const Yard& yard, const Doorway& from, const Errand& errand) {
  return Spread(yard, from, errand).go();
}

}  // namespace hummock::keepers
