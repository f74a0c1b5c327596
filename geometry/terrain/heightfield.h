// The ground: heights on a regular grid, made continuous by one fixed triangulation.
//
// The surface. Each cell with corners a=(i,j), b=(i+1,j), c=(i+1,j+1), d=(i,j+1) is the two
// triangles (a,b,d) and (c,d,b): the diagonal always runs b–d (south-east to north-west). Height,
// slope, rays, meshes and volumes all use this one surface, so they agree exactly; it is also how
// the ray library splits its grids. Between nodes it differs from the bilinear patch by at most
// |z_a − z_b + z_c − z_d| / 4.
#pragma once

#include <optional>
#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/plan/grid.h"
#include "geometry/plan/polygon.h"

namespace hummock::geom {

struct Heightfield {
  Grid grid;              // at least 2 × 2 nodes
  std::vector<double> z;  // m, one a node, finite
  double at(int i, int j) const { return z[grid.index(i, j)]; }
  double& at(int i, int j) { return z[grid.index(i, j)]; }
};

// A level ground that covers `area`, nodes on whole multiples of `cell` from area.lo.
Heightfield level_ground(const Box2& area, double cell, double level);

// Height of the surface at p, m. Outside the grid the nearest edge's height is used (clamped).
double height_at(const Heightfield& ground, Vec2 p);
// The same of every point (x, y) of a lattice, m: row by row, the first y's first.
std::vector<double> heights_at(const Heightfield& ground, const std::vector<double>& xs,
                               const std::vector<double>& ys);
bool covers(const Heightfield& ground, Vec2 p);

// Upward unit normal of the triangle under p.
Vec3 normal_at(const Heightfield& ground, Vec2 p);

// Slope of the triangle under p, radians from level, 0..π/2.
double slope_at(const Heightfield& ground, Vec2 p);

// Points where the segment a→b crosses grid lines or diagonals, with a and b themselves: the
// surface is straight between consecutive points, so a line laid along them lies on the ground.
// Returned as parameters 0..1 in rising order.
std::vector<double> ground_breaks(const Heightfield& ground, Vec2 a, Vec2 b);

// Every cell as two triangles, normals up. With a polygon: the exact part of the surface inside it
// (triangles cut at its edges). Vertices are welded.
Mesh ground_mesh(const Heightfield& ground);
Mesh ground_mesh(const Heightfield& ground, const Polygon& inside);

// Area of the surface over the polygon, m² (exact for the triangulation), and ∫ (z − base) dA, m³.
struct SurfaceSums {
  double plan_area_m2 = 0.0;
  double surface_area_m2 = 0.0;
  double volume_above_m3 = 0.0;  // signed: ∫ (z − base)
};
SurfaceSums surface_sums(const Heightfield& ground, const Polygon& inside, double base);

}  // namespace hummock::geom
