// What a survey finer than the cell has and the ground on its grid has not.
//
// Every surveyed point inside the boundary, or within a cell of it, is compared with the ground as
// laid, which is linear between its nodes. More than 5 cm (common practice, no source: what a
// survey itself is good for) is detail lost: the answers on that ground rest on its not mattering.
#pragma once

#include <optional>

#include "engine/site/unseen.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

inline constexpr double kLostDetail = 0.05;  // m; common practice, no source

// The references must outlive it.
class LostDetail {
 public:
  LostDetail(const geom::Heightfield& laid, const geom::Polygon& outline)
      : laid_(laid), outline_(outline) {}

  void compare(geom::Vec2 at, double z);

  bool any() const { return worst_ > kLostDetail; }
  double worst() const { return worst_; }   // m
  geom::Vec2 where() const { return at_; }  // local
  // `origin` added to local coordinates gives the file's.
  std::optional<Unseen> unseen(geom::Vec2 origin) const;

 private:
  const geom::Heightfield& laid_;
  const geom::Polygon& outline_;
  double worst_ = kLostDetail;
  geom::Vec2 at_;
};

}  // namespace hummock::ground
