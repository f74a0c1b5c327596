// The squares of the ground: which are places. First half of ground_places (places.h).
#pragma once

#include <optional>
#include <vector>

#include "engine/leap/places/places.h"
#include "engine/usable/usable_ground.h"

namespace hummock::leap {

class SquareSampler {
 public:
  SquareSampler(const Model& model, const PlaceRules& rules);

  void sample_all();
  // Only the squares within the plan boxes; the rest as `before`.
  void sample_again(const GroundSquares& before, const std::vector<geom::Box3>& changed);

  const GroundSquares& squares() const { return squares_; }
  GroundSquares take() { return std::move(squares_); }
  char state(int i, int j) const { return squares_.state[index(i, j)]; }
  geom::Vec2 point(int i, int j) const;    // of a place
  double water_level(geom::Vec2 p) const;  // m, of the highest water there; below all without any
  bool can_be(geom::Vec2 p) const;
  bool near_things(int i, int j) const { return near_[index(i, j)] != 0; }
  bool steep(int i, int j) const;       // every triangle of it
  geom::Box3 cell(int i, int j) const;  // holds the square's surface
  std::size_t index(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(squares_.nx) +
           static_cast<std::size_t>(i);
  }
  int column(double x) const;
  int row(double y) const;

 private:
  void lay_lattice(double cell);
  void mark_inside();
  void mark_near_things();
  void find_steep_triangles();
  void find_plans();
  void find_corner_heights();
  void sample(int i0, int i1, int j0, int j1);
  char state_of(int i, int j, geom::Vec2& p) const;
  bool crest(geom::Vec2 p) const;
  std::optional<geom::Vec2> point_inside(int i, int j) const;
  std::optional<geom::Vec2> find_free(int i, int j, geom::Vec2 first) const;
  geom::Vec2 in_square(int i, int j, double u, double v) const {
    return {squares_.x0 + (i + u) * squares_.side, squares_.y0 + (j + v) * squares_.side};
  }

  const Model& model_;
  const PlaceRules& rules_;
  usable::UsableGround usable_;
  bool climbs_earth_ = false;
  int fine_ = 1;    // squares to a side of the ground's cell, or
  int coarse_ = 1;  // cells to a side of the square
  GroundSquares squares_;
  std::vector<char> inside_;    // 0 outside, 1 inside, 2 cut by the outline
  std::vector<char> near_;      // a thing's face lies over it or stands in it
  std::vector<char> triangle_;  // by ground cell: bit 0 lower, bit 1 upper triangle too steep
  struct Plan {
    const geom::Polygon* outline;
    geom::Box2 box;
    double level;  // m, of water
    bool holds(geom::Vec2 p) const;
  };
  std::vector<Plan> houses_, waters_;
  std::vector<double> corner_z_;  // m, at the squares' corners where they are finer than the cells
};

}  // namespace hummock::leap
