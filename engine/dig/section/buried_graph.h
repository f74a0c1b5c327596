// What is buried in a vertical section, as a planar graph a tunnel must go round.
//
// The straight pieces (cut from the skirt, apron, footing and whatever else stands in the soil) are
// clipped to below the ground, cut at each other, and their ends joined where closer than
// kWeldDistance: a slit finer than that is taken as closed. Where several pieces meet in a node, a
// tunnel that touches it stays in one *sector* between two neighbouring pieces; sectors, not nodes,
// are what a taut tunnel bends in. A node on the ground's surface has a sector towards the inside
// and one towards the outside.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

#include "engine/dig/section/ground_line.h"

namespace hummock::dig {

inline constexpr double kWeldDistance = 1e-6;  // m
inline constexpr double kSlack = 1e-9;  // m, numeric: ground, floor and a depth may be touched
inline constexpr double kInfinity = std::numeric_limits<double>::infinity();  // by definition

// What a piece is part of; bits, so that a node can be of several.
enum CoveredGround : std::uint32_t {
  kPanel = 1,
  kGate = 2,
  kSkirt = 4,
  kApron = 8,
  kFooting = 16,
  kHouse = 32,
  kRock = 64
};

// Pieces of a footing run with its concrete on their left (counter-clockwise round it), so that the
// ground within it is known even where its top stands in the air.
struct Piece {
  Vec2 a, b;
  std::uint32_t kind = kSkirt;
};

// A list of numbers that takes no memory of its own while they are few, as they are of most nodes.
class FewInts {
 public:
  void push_back(int value) {
    if (size_ == kFew) many_.assign(few_.begin(), few_.end());
    if (size_ < kFew)
      few_[size_] = value;
    else
      many_.push_back(value);
    ++size_;
  }
  void clear() {
    size_ = 0;
    many_.clear();
  }
  std::size_t size() const { return size_; }
  bool empty() const { return size_ == 0; }
  int* begin() { return size_ <= kFew ? few_.data() : many_.data(); }
  int* end() { return begin() + size_; }
  const int* begin() const { return size_ <= kFew ? few_.data() : many_.data(); }
  const int* end() const { return begin() + size_; }
  int operator[](std::size_t k) const { return begin()[k]; }

 private:
  static constexpr std::size_t kFew = 6;  // numeric, a setting
  std::size_t size_ = 0;
  std::array<int, kFew> few_{};
  std::vector<int> many_;  // all of them, where they are more
};

struct BuriedNode {
  Vec2 at;
  bool on_surface = false;
  std::uint32_t kinds = 0;
  FewInts next;  // joined nodes
};

struct Sector {
  static constexpr int kNotch = -2;  // by definition
  int node = -1;  // -1: a corner of the floor, kNotch: of the ground; no piece attached
  Vec2 at;
  double from = 0.0;   // rad, direction of its first side
  double width = 0.0;  // rad counter-clockwise to its second side; 2π when there is one piece only
  Vec2 first, second;  // unit vectors along its sides
  int from_node = -1;  // the node along the first side; -1 = the ground's surface
  int to_node = -1;
  bool inside = false;   // bordered by open inside ground
  bool outside = false;  // bordered by open outside ground
};

// The ground between two consecutive points of the section, cut at surface nodes.
struct SurfaceStep {
  Vec2 a, b;             // a.x < b.x
  bool covered = false;  // a piece lies on it: no tunnel starts here
  bool node_a = false, node_b = false;
  bool inside() const { return a.x + b.x > 0.0; }
};

struct BuriedGraph {
  std::vector<BuriedNode> nodes;
  std::vector<std::pair<int, int>> edges;
  std::vector<Sector> sectors;
  std::vector<SurfaceStep> surface;
  int divider = 0;  // the node at x = 0 on the ground: inside is x > 0, outside x < 0
};

BuriedGraph make_buried_graph(const GroundLine& ground, const std::vector<Piece>& pieces);

// May a leg leave (or reach) the sector in this direction? Legs along a piece are judged elsewhere.
bool looks_into(const Sector& sector, Vec2 direction);

// Is it certain that no shortest tunnel has a leg in this direction at the sector? Either the leg
// does not look into it, or the tunnel, unless it ends here, would bend round the free side: legs
// round a corner point away from both the corner's own angle and its opposite. Cheap, and sure by a
// millionth of a radian; what it lets pass may still be useless. Directions that are useless in one
// way make up a convex cone.
enum class Useless { no, into, no_bend };

inline Useless is_useless(const Sector& sector, Vec2 direction) {
  constexpr double kAngle = 1e-6;  // rad
  const double slack = kAngle * (std::abs(direction.x) + std::abs(direction.y));
  if (sector.width < geom::kPi) return Useless::no;
  const double p = cross(sector.second, direction), q = cross(direction, sector.first);
  if (p > slack && q > slack) return sector.node >= 0 ? Useless::into : Useless::no;
  return p < -slack && q < -slack ? Useless::no_bend : Useless::no;
}

}  // namespace hummock::dig
