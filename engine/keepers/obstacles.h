// What stands in a person's way, and what is stood on, found by place.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "engine/model/model.h"

namespace hummock::keepers {

// Leaves part before a person who pushes, but nobody has said that they may be passed.
enum class Leaves { closed, open };

// What is left out of the way: doors that stand open, a house that is gone into.
struct LeftOut {
  std::vector<int> parts;
  bool holds(int part) const;
};

class Obstacles {
 public:
  explicit Obstacles(const Model& model);

  // The first part, in their order, that comes nearer than `radius` to the upright line over p
  // between the heights `low` and `high` (m above datum), leaves from `leafy` up; -1 = none.
  int in_the_disc(Vec2 p, double radius, double low, double leafy, double high, Leaves leaves,
                  const LeftOut& out) const;
  // The highest top of a closed thing over p, no higher than `most` (m above datum); -1e300 = none.
  double top_at(Vec2 p, double most, const LeftOut& out) const;

 private:
  struct Face {
    Vec3 a, b, c;
    double lowest = 0.0, highest = 0.0;  // m above datum
    int part = 0;
    bool leafy = false, carries = false;  // a top of a closed thing
  };
  void add(const Part& part, int index);
  template <class Use>
  void near(Vec2 lo, Vec2 hi, const Use& use) const;

  std::vector<Face> faces_;
  std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> cells_;
};

}  // namespace hummock::keepers
