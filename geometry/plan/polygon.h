// Simple polygons in the plane: area, winding, containment, distances, offsets.
//
// A polygon is its corners in order, the last joined to the first, no repeated closing point.
// Functions accept either winding unless they say otherwise.
#pragma once

#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "geometry/vec.h"

namespace hummock::geom {

using Polygon = std::vector<Vec2>;

// Shoelace area, m²; positive when counter-clockwise.
double signed_area(const Polygon& polygon);
double perimeter(const Polygon& polygon);
Box2 bounds(const Polygon& polygon);
Box2 widened(Box2 box, double by);                             // by so much, m, on each side
std::size_t following(const Polygon& polygon, std::size_t i);  // the corner after corner i

// The first pair of edges (i, j) that touch or cross where they should not, or nothing when the
// polygon is simple. Edge i runs from corner i to corner i+1. Also reports zero-length edges (i,
// i).
std::optional<std::pair<int, int>> first_self_crossing(const Polygon& polygon);

// Even-odd rule; points within 1e-12 m of an edge count as inside.
bool contains(const Polygon& polygon, Vec2 p);

// Distance from p to the nearest point of the polygon's edges, m, >= 0 on either side.
double distance_to_edges(const Polygon& polygon, Vec2 p);

struct NearestOnEdge {
  int edge = -1;
  double along = 0.0;  // m from the edge's first corner
  Vec2 point;
  double distance = 0.0;
};
NearestOnEdge nearest_on_edges(const Polygon& polygon, Vec2 p);

double distance_to_segment(Vec2 p, Vec2 a, Vec2 b);

// Do segments ab and cd share a point (touching counts)?
bool segments_meet(Vec2 a, Vec2 b, Vec2 c, Vec2 d);

// The corner between two consecutive edges shifted to their left by d0 and d1 metres: where the
// shifted lines meet (the mitre). `before`, `corner`, `after` in order. Edges in line, or a mitre
// longer than `limit` times the larger shift, give the mean of the two shifted corners instead.
Vec2 mitre(Vec2 before, Vec2 corner, Vec2 after, double d0, double d1, double limit = 6.0);

struct Circle {
  Vec2 centre;
  double radius = 0.0;  // m
};
// Largest circle inside the polygon, within `precision` metres (> 0) of the true radius.
// Quadtree search by cell bounds; exact lower bound, so never larger than the true circle.
Circle largest_inscribed_circle(const Polygon& polygon, double precision);

struct RectangleInside {
  Vec2 centre;
  double length = 0.0;  // m, along `turn`
  double width = 0.0;   // m
  double turn = 0.0;    // radians counter-clockwise from x
  double area() const { return length * width; }
};
// A large rectangle inside the polygon, any direction: the best over `turns` directions in 0..90°
// on a grid of `cell` metres. Never larger than the true one; short by O(cell · perimeter).
RectangleInside large_inscribed_rectangle(const Polygon& polygon, double cell, int turns = 36);

}  // namespace hummock::geom
