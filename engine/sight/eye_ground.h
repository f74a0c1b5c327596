// What the modelled ground alone hides from guests' eyes, kept for all who ask again of an eye: the
// two seasons, and the screens.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <vector>

#include "engine/model/model.h"
#include "engine/sight/node_bits.h"
#include "geometry/terrain/heightfield.h"
#include "geometry/terrain/viewshed.h"

namespace hummock::sight {

// Set for each usable node at which the ground hides whatever is `tall` above it.
using HiddenByGround = NodeBits;

class EyeGround {
 public:
  // Both must outlive it.
  EyeGround(const geom::Heightfield& ground, const std::vector<std::uint8_t>& usable, double tall);

  // Nothing for an eye that stands beyond the ground. One thread at a time; several eyes are looked
  // from side by side.
  std::shared_ptr<const HiddenByGround> from(Vec3 eye);
  std::vector<std::shared_ptr<const HiddenByGround>> from(std::span<const Vec3> eyes);

 private:
  HiddenByGround look(Vec3 eye) const;

  const geom::Heightfield& ground_;
  const std::vector<std::uint8_t>& usable_;
  double tall_;
  geom::NodeRange wanted_;  // of the usable nodes
  std::map<std::array<double, 3>, std::shared_ptr<const HiddenByGround>> seen_;
};

}  // namespace hummock::sight
