#include "engine/leap/physics/ground_flights.h"

#include <bit>

namespace hummock::leap {

namespace {

constexpr int kPatchBits = 26, kSpotBits = 22, kRungsBits = 10, kChordBits = 5;
constexpr std::uint64_t kChord = (1U << kChordBits) - 1;

}  // namespace

// Adding nothing makes one zero of both.
std::uint64_t mixed_in(std::uint64_t h, geom::Vec3 v) {
  for (const double x : {v.x + 0.0, v.y + 0.0, v.z + 0.0})
    h = (h ^ (h >> 29) ^ std::bit_cast<std::uint64_t>(x)) * 0xBF58476D1CE4E5B9ULL;
  return h;
}

std::optional<GroundFlights::Slot> GroundFlights::slot_of(const Flight& f) {
  const bool fits = f.to_patch != 0 && f.to_patch < (1U << kPatchBits) && f.to < (1 << kSpotBits) &&
                    f.rung < (1 << kRungsBits);
  if (!fits) return std::nullopt;
  Slot slot{f.from, f.to_patch};
  slot.name = (slot.name << kSpotBits) | static_cast<std::uint64_t>(f.to);
  slot.name = (slot.name << kRungsBits) | static_cast<std::uint64_t>(f.rung);
  slot.name = ((slot.name << 1) | (f.steeper ? 1U : 0U)) << kChordBits;
  return slot;
}

std::uint64_t GroundFlights::mark_of(const SurfacePiece& from) {
  return mixed_in(mixed_in(mixed_in(from.cling ? 1 : 0, from.cell.lo), from.cell.hi), from.at);
}

std::size_t GroundFlights::mixed(const Slot& slot) {
  constexpr std::uint64_t kOdd = 0x9E3779B97F4A7C15ULL;
  const std::uint64_t h = ((slot.name & ~kChord) ^ slot.from ^ (slot.from >> 29)) * kOdd;
  return static_cast<std::size_t>(h ^ (h >> 32));
}

// Where it is, or would be.
std::size_t GroundFlights::seek(const std::vector<Slot>& slots, const Slot& slot) {
  std::size_t at = mixed(slot) & (slots.size() - 1);
  while (slots[at].name != 0 &&
         (((slots[at].name ^ slot.name) & ~kChord) != 0 || slots[at].from != slot.from))
    at = (at + 1) & (slots.size() - 1);
  return at;
}

std::optional<int> GroundFlights::find(const Flight& flight, std::uint16_t since) const {
  const std::optional<Slot> slot = slot_of(flight);
  if (!slot) return std::nullopt;
  const std::lock_guard hold(lock_);
  if (slots_.empty()) return std::nullopt;
  const Slot& found = slots_[seek(slots_, *slot)];
  if (found.name == 0 || found.when < since) return std::nullopt;
  return static_cast<int>(found.name & kChord) - 1;
}

void GroundFlights::grow() {
  constexpr std::size_t kFirst = 64;  // layout
  std::vector<Slot> wider(slots_.empty() ? kFirst : 2 * slots_.size());
  for (const Slot& slot : slots_)
    if (slot.name != 0) wider[seek(wider, slot)] = slot;
  slots_ = std::move(wider);
}

bool GroundFlights::full() const {
  const std::lock_guard hold(lock_);
  return used_ >= most_kept_;
}

void GroundFlights::keep(const Flight& flight, int found, std::uint16_t when) {
  std::optional<Slot> slot = slot_of(flight);
  if (!slot) return;
  slot->name |= static_cast<std::uint64_t>(found + 1);
  slot->when = when;
  const std::lock_guard hold(lock_);
  if (4 * (used_ + 1) > 3 * slots_.size()) grow();
  Slot& place = slots_[seek(slots_, *slot)];
  if (place.name == 0 && used_ >= most_kept_) return;
  if (place.name == 0) ++used_;
  place = *slot;
}

}  // namespace hummock::leap
