#include "engine/sight/eye_ground.h"

#include "geometry/terrain/viewshed.h"

namespace hummock::sight {
namespace {

constexpr std::size_t kMostBits = std::size_t{1} << 31U;  // 256 MB; then eyes are looked from again

}  // namespace

HiddenByGround EyeGround::look(Vec3 eye) const {
  const geom::Raster need = geom::least_visible_height(ground_, eye);
  HiddenByGround hidden(usable_.size(), false);
  for (std::size_t n = 0; n < hidden.size(); ++n)
    if (usable_[n] != 0 && need.values[n] > tall_) hidden[n] = true;
  return hidden;
}

std::shared_ptr<const HiddenByGround> EyeGround::from(Vec3 eye) {
  if (!geom::covers(ground_, geom::xy(eye))) return nullptr;
  const std::array<double, 3> at{eye.x, eye.y, eye.z};
  if (const auto known = seen_.find(at); known != seen_.end()) return known->second;
  auto hidden = std::make_shared<const HiddenByGround>(look(eye));
  if ((seen_.size() + 1) * usable_.size() <= kMostBits) seen_.emplace(at, hidden);
  return hidden;
}

}  // namespace hummock::sight
