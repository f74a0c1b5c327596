// One drawn basin: how deep, how steep its sides, how to wade it.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/water/water.h"
#include "engine/water/way_out.h"
#include "geometry/terrain/depression_fill.h"

namespace hummock::water {

// Pieces of dry ground inside the boundary: a node's piece, −1 where wet or outside. `wet[n]` is 0
// for dry nodes, else 1 + the index of the (last drawn) water that covers them.
struct DryPieces {
  std::vector<std::int32_t> of_node;
  std::vector<int> nodes_in;         // size of each
  std::vector<std::uint8_t> inside;  // every node: inside the boundary
};
std::vector<std::int32_t> wet_nodes(const Model& model);
DryPieces dry_pieces(const Model& model, const std::vector<std::uint8_t>& inside,
                     const std::vector<std::int32_t>& wet);

// `brim`: the level at which each node of the bare ground would run over (fill_depressions).
// `walls`: what holds water up on the ground's grid.
BasinRow basin_row(const Model& model, std::size_t index, const std::vector<double>& brim,
                   const std::vector<std::int32_t>& wet, const DryPieces& dry,
                   const WayOut& way_out, const std::vector<geom::Crossing>& walls);

struct Crossover {
  double deepest = 0;  // m
  bool parts_the_yard = false;
};
// The shallowest way across (water.h). Union of nodes from shallow to deep until both shores are
// in one piece, within the boundary (Kruskal's minimax path): O(n log n) in the basin's nodes.
Crossover shallowest_way(const Model& model, std::size_t index,
                         const std::vector<std::int32_t>& wet, const DryPieces& dry);

}  // namespace hummock::water
