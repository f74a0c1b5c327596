#include "engine/leap/physics/flight_memo.h"

#include <algorithm>

namespace hummock::leap {

namespace {

constexpr int kFromBits = 26, kToBits = 22, kRungBits = 10, kFoundBits = 5;
constexpr std::uint64_t kFound = (1U << kFoundBits) - 1;

// Marks the spots in their order.
std::uint64_t mark_of(const std::vector<SurfacePiece>& spots) {
  std::uint64_t h = spots.size();
  for (const SurfacePiece& p : spots) {
    const unsigned marks = (p.hook ? 1U : 0U) | (p.cling ? 2U : 0U) | (p.slid ? 4U : 0U);
    h = mixed_in(mixed_in(mixed_in(h ^ marks, p.at), p.cell.lo), p.cell.hi);
  }
  return h;
}

}  // namespace

std::optional<FlightMemo::Slot> FlightMemo::slot_of(const Flight& f) {
  const bool fits = f.from_patch != 0 && f.to_patch != 0 && f.from < (1 << kFromBits) &&
                    f.to < (1 << kToBits) && f.rung < (1 << kRungBits);
  if (!fits) return std::nullopt;
  Slot slot;
  slot.patches = (std::uint64_t{f.from_patch} << 32) | f.to_patch;
  slot.spots = static_cast<std::uint64_t>(f.from);
  slot.spots = (slot.spots << kToBits) | static_cast<std::uint64_t>(f.to);
  slot.spots = (slot.spots << kRungBits) | static_cast<std::uint64_t>(f.rung);
  slot.spots = ((slot.spots << 1) | (f.steeper ? 1U : 0U)) << kFoundBits;
  return slot;
}

std::size_t FlightMemo::mixed(const Slot& slot) {
  std::uint64_t h = slot.patches * 0x9E3779B97F4A7C15ULL;
  h = (h ^ (h >> 29) ^ (slot.spots & ~kFound)) * 0xBF58476D1CE4E5B9ULL;
  return static_cast<std::size_t>(h ^ (h >> 32));
}

// Where it is, or would be.
std::size_t FlightMemo::seek(const std::vector<Slot>& slots, const Slot& slot) {
  std::size_t at = (mixed(slot) / kShards) & (slots.size() - 1);
  while (slots[at].patches != 0 &&
         (slots[at].patches != slot.patches || ((slots[at].spots ^ slot.spots) & ~kFound) != 0))
    at = (at + 1) & (slots.size() - 1);
  return at;
}

std::optional<int> FlightMemo::find(const Flight& flight, std::uint16_t since) const {
  const std::optional<Slot> slot = slot_of(flight);
  if (!slot) return std::nullopt;
  const Shard& shard = shards_[mixed(*slot) % kShards];
  const std::lock_guard hold(shard.lock);
  if (shard.slots.empty()) return std::nullopt;
  const Slot& found = shard.slots[seek(shard.slots, *slot)];
  if (found.patches == 0 || found.when < since) return std::nullopt;
  return static_cast<int>(found.spots & kFound) - 1;
}

void FlightMemo::grow(Shard& shard) {
  std::vector<Slot> wider(std::max<std::size_t>(64, 2 * shard.slots.size()));
  for (const Slot& slot : shard.slots)
    if (slot.patches != 0) wider[seek(wider, slot)] = slot;
  shard.slots = std::move(wider);
}

void FlightMemo::keep(const Flight& flight, int found, std::uint16_t when) {
  std::optional<Slot> slot = slot_of(flight);
  if (!slot) return;
  slot->spots |= static_cast<std::uint64_t>(found + 1);
  slot->when = when;
  Shard& shard = shards_[mixed(*slot) % kShards];
  const std::lock_guard hold(shard.lock);
  if (4 * (shard.used + 1) > 3 * shard.slots.size()) grow(shard);
  Slot& place = shard.slots[seek(shard.slots, *slot)];
  if (place.patches == 0 && shard.used >= most_kept_ / kShards) return;
  if (place.patches == 0) ++shard.used;
  place = *slot;
}

bool FlightMemo::full() const {
  const auto is_full = [this](const Shard& shard) {
    const std::lock_guard hold(shard.lock);
    return shard.used >= most_kept_ / kShards;
  };
  return from_ground_.full() || std::any_of(shards_.begin(), shards_.end(), is_full);
}

std::uint32_t FlightMemo::number(const PatchPtr& patch) {
  Known& known = numbers_[patch.get()];
  if (known.number != 0 && known.patch.lock() == patch) return known.number;
  known = {patch, numbered_ + 1};
  // What was laid again may have come out the same. What is folded is not laid to find out.
  if (!patch->folds) {
    const Spots spots{patch->part, patch->pieces.size(), mark_of(patch->pieces)};
    known.number = of_spots_.try_emplace(spots, known.number).first->second;
  }
  numbered_ = std::max(numbered_, known.number);
  return known.number;
}

}  // namespace hummock::leap
