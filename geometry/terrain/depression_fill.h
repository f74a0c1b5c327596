// Depression filling: the level to which water rises at each node before it can run off.
//
// Theory. The level at node v is the least, over all paths from v to an outlet, of the highest
// ground on the path: a minimax path. Priority-flood finds it by flooding inwards from the outlets,
// lowest first; here with the plain queue for the cells of a pit that makes most pushes O(1)
// (Barnes, Lehman & Mulla 2014, Computers & Geosciences 62:117-127, algorithm 2). The answer does
// not depend on the order in which equal levels are taken. O(n log n), O(n) for a ground that is
// all pit.
//
// Neighbours. On the triangulated surface of heightfield.h water that can move at all can move
// along the triangulation's edges without going higher (over one flat triangle the straight path
// and its edges have their summits at corners). So the six neighbours of a node give the exact
// level for that surface; the customary eight add a diagonal that the surface does not have and are
// offered for comparison with raster programs.
//
// Departure from the paper: an edge may carry a `Crossing`, the level water must stand at to pass
// it (a wall's top, a drain's sill). A node may then be reached at first too high and later lower,
// so levels are settled when they leave the queue, as in Dijkstra's algorithm.
//
// Limits: no infiltration, no flow rates: what stands after enough rain on ground that soaks up
// none.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

enum class Neighbours { triangulated, eight };

struct Crossing {
  std::size_t a = 0, b = 0;  // two neighbouring nodes
  double level = 0.0;        // m; water passes between them only at this level or above; may be inf
};

struct FillOptions {
  Neighbours neighbours = Neighbours::triangulated;
  std::vector<std::size_t> outlets;  // besides the grid's rim, where water always leaves
  std::vector<Crossing> crossings;   // several for one pair: the highest counts
};

// The level at each node, m, >= the ground; equal to it where nothing stands. Infinite where
// crossings shut a place in for ever.
std::vector<double> fill_depressions(const Heightfield& ground, const FillOptions& options = {});

struct Depression {
  std::size_t lowest = 0;  // its deepest node
  double level = 0.0;      // m
  double depth = 0.0;      // m, at `lowest`
  double area_m2 = 0.0;
  double volume_m3 = 0.0;
};
struct Depressions {
  std::vector<Depression> list;     // in order of their first node
  std::vector<std::int32_t> label;  // a node's index into `list`, −1 where dry
};

// The separate ponds of a filled ground. Area and volume are exact for the triangulated surface
// (each triangle under the level plane cut at its shore), except in the triangles a crossing
// splits, where each wet corner counts for a third of the triangle. With `counts`, only triangles
// for whose centroid it says yes go into area and volume (it is asked about wet triangles only).
Depressions find_depressions(const Heightfield& ground, const std::vector<double>& filled,
                             const std::function<bool(Vec2)>& counts = {});

}  // namespace hummock::geom
