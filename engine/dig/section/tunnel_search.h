// The search for the shortest tunnel in the visibility graph of a section (section_paths.h).
#pragma once

#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "engine/dig/section/buried_graph.h"
#include "engine/dig/section/open_ground.h"

namespace hummock::dig {

struct Tunnel {
  bool open = false;
  double length = 0.0;               // m
  double depth = 0.0;                // m, greatest, below the ground straight above
  std::vector<Vec2> path;            // from inside to outside
  std::vector<std::uint32_t> bends;  // what it bends round, one for each inner point of the path
};

// What a leg may not cross, laid out to be looked through fast.
class SectionObstacles {
 public:
  explicit SectionObstacles(const BuriedGraph& graph);

  // Is the straight leg free of pieces and nodes and below the ground? `node`: -1 = none.
  bool clear(const GroundLine& ground, Vec2 p, int node_p, Vec2 q, int node_q) const;

 private:
  struct Wall {
    double lo_x, hi_x, lo_y, hi_y;
    Vec2 a, b;
    int i, j;
  };
  bool crosses_piece(Vec2 p, int node_p, Vec2 q, int node_q) const;
  bool touches_node(Vec2 p, int node_p, Vec2 q, int node_q) const;

  std::vector<std::pair<Vec2, int>> nodes_;  // rising in x
  std::vector<Wall> walls_;                  // rising in lo_x
  double widest_ = 0.0;                      // m, of a wall in x
};

// What one search after another goes through.
struct SearchedGround {
  const GroundLine& ground;
  const BuriedGraph& graph;
  const SectionObstacles& obstacles;
  const OpenGround &inside, &outside;  // the banks
};

// One search, above `floor` (empty = none): from the inside bank or a point to the outside.
Tunnel shortest_from_bank(const SearchedGround& searched, const GroundLine& floor);
Tunnel shortest_from_point(const SearchedGround& searched, const GroundLine& floor, Vec2 from);

// Is the whole path at or above the floor (empty = none)?
bool keeps_above(const GroundLine& floor, const std::vector<Vec2>& path);

}  // namespace hummock::dig
