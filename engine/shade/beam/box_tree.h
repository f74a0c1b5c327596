// Boxes of what casts shade in a tree, so that those far from a place are passed over together.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "engine/shade/beam/sun_ray.h"
#include "engine/shade/beam/terrain_clear.h"

namespace hummock::shade {

// The boxes of things that have one, in their order.
template <class Thing>
std::vector<geom::Box3> boxes_of(const std::vector<Thing>& things) {
  std::vector<geom::Box3> boxes;
  boxes.reserve(things.size());
  for (const Thing& t : things) boxes.push_back(t.box);
  return boxes;
}

class BoxTree {
 public:
  BoxTree() = default;
  explicit BoxTree(std::vector<geom::Box3> boxes);
  // Those that may shade the box from some sun of the range (may_shade.h), rising: all of them
  // and no others, whatever the tree. `along` as there.
  std::vector<int> near(const geom::Box3& nodes, const RunRange& run, Vec2 along) const;
  void near(const geom::Box3& nodes, const RunRange& run, Vec2 along, std::vector<int>& out) const;
  // Of several suns that stand close together (a disc), at least one.
  std::vector<int> near(const geom::Box3& nodes, std::span<const SunRay> suns) const;

 private:
  static constexpr int kLeaf = 4;  // boxes
  // Of order_[first, last); the halves are the next node and `second`, or there are none (0).
  struct Node {
    geom::Box3 box;
    int first = 0, last = 0, second = 0;
  };
  void build(int first, int last);

  std::vector<geom::Box3> boxes_;
  std::vector<int> order_;
  std::vector<Node> nodes_;
};

}  // namespace hummock::shade
