#include "engine/shade/day/over_body.h"

namespace hummock::shade {
namespace {

bool holds(const TileRows& rows, std::size_t k) {
  return (rows[k / kTile] >> k % kTile & 1U) != 0;
}

}  // namespace

geom::Box3 with_body(geom::Box3 box, double height) {
  box.hi.z += height;
  return box;
}

// A millimetre below its height: a roof it just fits under is above its back.
OverBody::OverBody(const FastBeam& fast, const Tile& tile, double height)
    : fast_(fast), tile_(tile), up_(height - 2.0 * kLift) {}

// The tile at the height of the back, where no ground faces away.
void OverBody::lift() {
  lifted_ = tile_;
  lifted_->ref.z += up_;
  lifted_->box.lo.z += up_;
  lifted_->box.hi.z += up_;
  for (auto& rises : lifted_->rise) rises.fill(0.0F);
  lifted_->gx0 = lifted_->gx1 = lifted_->gy0 = lifted_->gy1 = 0.0F;
}

void OverBody::take_lit(const StepShadows& shadows, double shaded_below, TileRows& shaded) {
  if (up_ <= 0.0 || shaded == TileRows{}) return;
  if (!lifted_) lift();
  for (std::size_t k = 0; k < kTileNodes; ++k) lifted_->inside[k] = holds(shaded, k) ? 1 : 0;
  beam_of_step(fast_, *lifted_, shadows, {}, beam_, scratch_);
  for (std::size_t k = 0; k < kTileNodes; ++k)
    if (holds(shaded, k) && beam_.at(k) >= shaded_below)
      shaded[k / kTile] &= static_cast<std::uint16_t>(~(1U << k % kTile));
}

}  // namespace hummock::shade
