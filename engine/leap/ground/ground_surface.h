// The lattice of the ground's squares and the ground's surface over it: what of the ground does not
// hang on the things that stand there. Once made it is shared by every answer about the same ground
// and the same animal, and read by any number of threads.
#pragma once

#include <vector>

#include "engine/leap/places/places.h"

namespace hummock::leap {

class GroundSurface {
 public:
  // Keeps no reference. The lattice's spacing is `rules.resolution` or what lies next to it that
  // fits the ground's cell (places.h, Ground).
  GroundSurface(const Model& model, const PlaceRules& rules);

  double side() const { return side_; }  // m
  int nx() const { return nx_; }
  int ny() const { return ny_; }
  geom::Vec2 at(int i, int j, double u, double v) const {
    return {x0_ + (i + u) * side_, y0_ + (j + v) * side_};
  }
  int column(double x) const;  // the nearest one
  int row(double y) const;

  enum Inside : char { kBeyond = 0, kWithin = 1, kCut = 2 };  // of the outline
  Inside inside(int i, int j) const { return static_cast<Inside>(inside_.at(i, j)); }
  const BlockGrid<char>& inside() const { return inside_; }
  bool any_steep(int bi, int bj) const;        // of a block: some triangle under it
  double highest() const { return highest_; }  // m
  bool climbs_earth() const { return climbs_earth_; }
  bool steep(int i, int j) const;  // every triangle of it
  double height(geom::Vec2 p) const { return geom::height_at(ground_, p); }
  double water_level(geom::Vec2 p) const;  // m, of the highest water there; below all without any
  geom::Box3 cell(int i, int j) const;     // holds the square's surface
  // Of the squares from one corner to the other, both among them, row by row.
  std::vector<geom::Box3> cells(int i0, int j0, int i1, int j1) const;
  // Heights of their middles, m, row by row.
  std::vector<double> middles(int i0, int j0, int i1, int j1) const;
  // Holds the surface of the squares from one corner to the other, both among them. Its top and
  // foot lie no more than a rounding beyond those of their cells together.
  geom::Box3 box(int i0, int j0, int i1, int j1) const;

 private:
  void lay_lattice(double resolution);
  void mark_inside(const geom::Polygon& outline);
  void mark_row(const geom::Polygon& outline, int j);
  void mark_cut(const geom::Polygon& outline);
  struct Lattice {
    std::vector<double> xs, ys, heights;  // m; heights row by row
  };
  // Of every square the same point, `in` of its side from its south-west corner on either axis.
  Lattice lattice(int i0, int j0, int i1, int j1, double in) const;
  char flags(int i, int j) const {  // of the ground's cell
    return triangle_[static_cast<std::size_t>(j) * static_cast<std::size_t>(ground_.grid.nx - 1) +
                     static_cast<std::size_t>(i)];
  }
  void find_steep_triangles(double stand_slope);

  geom::Heightfield ground_;
  double x0_ = 0.0, y0_ = 0.0, side_ = 0.05;  // m
  int nx_ = 0, ny_ = 0;
  int fine_ = 1;    // squares to a side of the ground's cell, or
  int coarse_ = 1;  // cells to a side of the square
  bool climbs_earth_ = false;
  double highest_ = 0.0;
  BlockGrid<char> inside_;
  std::vector<char> triangle_;  // by ground cell: bit 0 lower, bit 1 upper triangle too steep
  struct Pool {
    geom::Polygon outline;
    geom::Box2 box;
    double level;  // m
    bool holds(geom::Vec2 p) const;
  };
  std::vector<Pool> waters_;
};

}  // namespace hummock::leap
