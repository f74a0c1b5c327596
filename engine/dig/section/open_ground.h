// The open ground of one bank of a section, and the points of it a leg may end at.
#pragma once

#include <utility>
#include <vector>

#include "engine/dig/section/buried_graph.h"

namespace hummock::dig {

class OpenGround {
 public:
  enum class Bank { inside, outside };
  OpenGround(const BuriedGraph& graph, Bank bank);

  struct Foot {
    double distance2 = 0.0;  // m²
    Vec2 at;
  };
  // The nearest point of every step to the sector's node, but for surface nodes, those at `limit`
  // or farther, and those that no shortest tunnel has.
  void feet_of(const Sector& sector, double limit, std::vector<Foot>& feet) const;

 private:
  struct Point {
    Vec2 at;
    bool step = false;  // an open step leads on to the next point
    bool node = false;
  };
  struct Block {  // kBlock steps
    geom::Box2 box;
  };
  bool slides_back(std::size_t point, Vec2 from) const;
  bool slides_forth(std::size_t point, Vec2 from) const;
  void add_feet(const Sector& sector, double limit2, std::size_t block,
                std::vector<Foot>& feet) const;

  std::vector<Point> points_;
  std::vector<Block> blocks_;
};

}  // namespace hummock::dig
