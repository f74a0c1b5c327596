// Does a person walk from a doorway to somewhere?
//
// Model. A disc as wide as the walker goes from node to node of a square grid laid along the
// doorway, kApart apart, along its two directions. At each node it stands on the ground, or on the
// top of a closed thing no more than a riser above or below where it stood: steps, a bridge. There
//   nothing solid comes into the disc between a riser above its feet and its head, however thin;
//   round its rim the floor is no more than a riser higher or lower (as much as the slope gives, if
//   that is more), and where it is ground, no steeper from rim to rim than the slope or a riser;
//   no water stands above its feet.
// Leaves (plantings, crowns, woods) from kWadedThrough up are closed or open, as is asked.
//
// Limits. Known to a node: a gap of the walker's width up to kApart and a half more may be told as
// closed, none narrower as open. Where two floors lie within a riser of each other the higher is
// taken. The ground is what is modelled; where kMostNodes were come to and it goes on, nothing is
// known. What ground bears, ice and mud are not asked.
#pragma once

#include <functional>
#include <map>

#include "engine/keepers/obstacles.h"
#include "engine/keepers/walker.h"
#include "engine/model/model.h"
#include "engine/usable/usable_ground.h"

namespace hummock::keepers {

inline constexpr double kApart = 0.1;       // m; numeric, a setting
inline constexpr int kMostNodes = 200'000;  // numeric, a setting

// What everybody asks of one yard. `model` must outlive it.
struct Yard {
  explicit Yard(const Model& m) : model(m), obstacles(m), ground(m) {}
  const Model& model;
  Obstacles obstacles;
  usable::UsableGround ground;
};

struct Doorway {
  Vec2 a, b;  // the way in on the left of a→b
  double width() const { return geom::distance(a, b); }
};

inline constexpr int kGroundItself = -1;  // definition: too steep, or a drop
inline constexpr int kWater = -2;         // definition

enum class Found { yes, no, unknown };
struct Walk {
  Found found = Found::no;
  std::map<int, int> in_the_way;  // part, or one of the two above → at how many nodes
};

struct Errand {
  Walker walker;
  double height = kUpright;  // m, of the head above the feet
  Leaves leaves = Leaves::closed;
  LeftOut left_out;
  std::function<bool(Vec2)> may_be;  // where the disc's middle may be
  std::function<double(Vec2)> left;  // m that are left to go: 0 = there
};

Walk walk_from(const Yard& yard, const Doorway& from, const Errand& errand);

}  // namespace hummock::keepers
