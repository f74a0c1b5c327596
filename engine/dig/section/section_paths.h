// The shortest tunnel under a barrier in one vertical section.
//
// The section. x runs across the fence, inside x > 0, the fence at x = 0; y is height. The animal
// is a point and its tunnel has no width: a tunnel found for a point is never missed for a body. It
// enters the soil anywhere on the open ground inside, leaves it anywhere on the open ground
// outside, keeps below the ground and above the rock (or liner), and may touch but not cross what
// is buried. Its length is what is dug; its depth is measured below the ground straight above.
//
// Least depth. Bend the section so that the ground is level: a tunnel of greatest depth d exists
// exactly when the buried pieces joined to the fence's foot do not reach d. So the least depth is
// the greatest depth of that connected component, and the way is closed when it reaches the rock.
//
// Shortest length. The free part of the section is a polygon with holes, so the shortest path is
// taut: it bends only at ends of pieces, or at bumps of the floor, and its first and last leg meet
// the ground at the nearest point (at right angles, or at a corner of the ground that is nearer
// than the ground beside it). It never runs straight from bank to bank without a bend: at one end
// at least the ground towards the fence would make less than a right angle with it, as the ground
// is a function of x, so sliding that end up shortens it until something buried is touched. Dug on
// from a point in the soil, it bends below notches of the open ground inside as well (from the bank
// it would begin there). The visibility graph of those points is searched by Dijkstra's algorithm,
// legs being tested only when they would shorten something, and only where a taut path may have
// them: past a corner, in neither its own angle nor the opposite one (Lozano-Pérez & Wesley 1979;
// de Berg et al., Computational Geometry, ch. 15: from memory). The ground and the floor keep every
// leg between them. Exact up to kWeldDistance. Cost: O(m) for a bare skirt, O(k² (k + m)) at worst,
// for k bends and m points of ground.
#pragma once

#include <limits>
#include <vector>

#include "engine/dig/section/tunnel_search.h"

namespace hummock::dig {

struct VerticalSection {
  GroundLine ground;          // needs a point at x = 0
  GroundLine rock;            // over the same range, below the ground; empty = no rock
  std::vector<Piece> pieces;  // may reach above the ground: what is in the air is ignored
};

// How far what is joined to the fence's foot reaches.
struct JoinedReach {
  double depth = 0.0;               // m below the ground straight above
  double from_x = 0.0, to_x = 0.0;  // m, ≤ 0 and ≥ 0
  bool rock = false;                // down to the rock
};

class SectionPaths {
 public:
  explicit SectionPaths(VerticalSection section);

  // Greatest depth any tunnel must have at least; infinity when rock closes the way.
  double least_depth() const { return joined_.rock ? kInfinity : joined_.depth; }
  const JoinedReach& joined() const { return joined_; }

  // The shortest tunnel nowhere deeper than `max_depth`.
  Tunnel shortest(double max_depth = std::numeric_limits<double>::infinity()) const;

  // The same from a point in the soil (the end of a burrow) to the ground outside.
  Tunnel shortest_from(Vec2 start,
                       double max_depth = std::numeric_limits<double>::infinity()) const;

  const VerticalSection& section() const { return section_; }
  const BuriedGraph& graph() const { return graph_; }

 private:
  bool is_shut_off(Vec2 start, double max_depth) const;
  SearchedGround searched() const {
    return {section_.ground, graph_, obstacles_, inside_, outside_};
  }

  VerticalSection section_;
  BuriedGraph graph_;
  SectionObstacles obstacles_;
  OpenGround inside_, outside_;
  JoinedReach joined_;
};

}  // namespace hummock::dig
