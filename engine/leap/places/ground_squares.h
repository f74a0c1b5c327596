// The squares of the ground: which are places. First half of ground_places (places.h).
#pragma once

#include <optional>
#include <vector>

#include "engine/leap/ground/ground_surface.h"
#include "engine/usable/usable_ground.h"

namespace hummock::leap {

class SquareSampler {
 public:
  // `surface`: of the same ground and animal; keeps references to the others.
  SquareSampler(const Model& model, const PlaceRules& rules,
                std::shared_ptr<const GroundSurface> surface);

  // `known`: as of ground_places.
  void sample_all(const GroundSquares& known);
  // Only the squares within the plan boxes; the rest as `before`.
  void sample_again(const GroundSquares& before, const std::vector<geom::Box3>& changed);

  const GroundSurface& surface() const { return *surface_; }
  const GroundSquares& squares() const { return squares_; }
  GroundSquares take() { return std::move(squares_); }
  char state(int i, int j) const { return squares_.state.at(i, j); }
  geom::Vec2 point(int i, int j) const { return squares_.point(i, j); }
  bool can_be(geom::Vec2 p) const;
  bool near_things(int i, int j) const { return squares_.near.at(i, j) != 0; }
  int column(double x) const { return surface_->column(x); }
  int row(double y) const { return surface_->row(y); }

 private:
  struct Range {
    int i0, i1, j0, j1;  // squares, the last left out
    friend bool operator==(const Range&, const Range&) = default;
  };
  void mark_near_things(const Range& range);
  void mark_near_part(const Part& part, const Range& range);
  Range about(const geom::Box3& box, const Range& range) const;
  void sample(const Range& range);
  void sample_blocks(const Range& range, int bj);
  void sample_square(int i, int j);
  bool plain(int bi, int bj) const;
  char state_of(int i, int j, geom::Vec2& p) const;
  bool crest(geom::Vec2 p) const;
  std::optional<geom::Vec2> point_inside(int i, int j) const;
  std::optional<geom::Vec2> find_free(int i, int j, geom::Vec2 first) const;

  const Model& model_;
  const PlaceRules& rules_;
  std::shared_ptr<const GroundSurface> surface_;
  usable::UsableGround usable_;
  GroundSquares squares_;
  struct Plan {
    const geom::Polygon* outline;
    geom::Box2 box;
    bool holds(geom::Vec2 p) const;
  };
  std::vector<Plan> houses_;
  std::vector<geom::Box2> plans_;  // of houses and waters, and a square more
};

}  // namespace hummock::leap
