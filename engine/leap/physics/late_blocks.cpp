#include "engine/leap/physics/late_blocks.h"

namespace hummock::leap {

double LateBlocks::needs(const Way& way) const {
  if (way.to_patch == 0) return 0.0;
  const std::lock_guard hold(lock_);
  const auto it = told_.find(name_of(way));
  if (it == told_.end()) return 0.0;
  const Told& told = it->second;
  return told.takeoff == way.takeoff && told.block.lock() == way.block ? told.needs : 0.0;
}

void LateBlocks::keep(const Way& way, double needs) {
  if (way.to_patch == 0) return;
  const std::lock_guard hold(lock_);
  if (told_.size() >= kMostKept) told_.clear();
  told_.insert_or_assign(name_of(way), Told{way.block, way.takeoff, needs});
}

}  // namespace hummock::leap
