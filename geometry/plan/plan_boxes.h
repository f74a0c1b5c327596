// Which of many boxes on plan meet a box: a tree, so that far ones are passed over together.
#pragma once

#include <vector>

#include "geometry/vec.h"

namespace hummock::geom {

class PlanBoxes {
 public:
  PlanBoxes() = default;
  explicit PlanBoxes(std::vector<Box2> boxes);  // by number, from 0
  // Those that share a point with `box`, rising: all of them and no others.
  std::vector<std::size_t> meeting(const Box2& box) const;

 private:
  static constexpr std::size_t kLeaf = 4;  // boxes
  struct Placed {
    Box2 box;
    Vec2 middle;  // twice the middle
    std::size_t id = 0;
  };
  // Of boxes_[first, last); the halves are the next node and `second`, or there are none (0).
  struct Node {
    Box2 box;
    std::size_t first = 0, last = 0, second = 0;
  };
  void build(std::vector<Placed>& placed, std::size_t first, std::size_t last);

  std::vector<Box2> boxes_;         // in the order of the leaves
  std::vector<std::size_t> order_;  // their numbers
  std::vector<Node> nodes_;
};

}  // namespace hummock::geom
