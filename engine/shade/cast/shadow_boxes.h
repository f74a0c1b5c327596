// Boxes about the shadows of many things, asked eight at a time which of them may meet a tile.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace hummock::shade {

// In shadow coordinates relative to one point: along x and y, and along the level axis square to
// the sun's way (a low sun's shadows are narrow bands aslant to x and y); the highest that casts.
struct ShadowBox {
  float x0 = 1e30F, x1 = -1e30F, y0 = 1e30F, y1 = -1e30F, across0 = 1e30F, across1 = -1e30F;
  float z_high = -1e30F;
};

class ShadowBoxes {
 public:
  void clear();
  void add(const ShadowBox& box);
  bool empty() const { return count_ == 0; }
  // Sets `hits` to those that meet a tile's box and rise above its lowest node, rising.
  void meeting(const ShadowBox& tile, float lowest, std::vector<std::uint32_t>& hits) const;

 private:
  std::size_t count_ = 0;
  std::array<std::vector<float>, 7> of_;  // the members of ShadowBox, filled up to whole eights
};

}  // namespace hummock::shade
