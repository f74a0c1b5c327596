// What was found of flights that leave from the ground, as FlightMemo keeps those between things.
//
// The ground is laid anew in every scene, so that a spot of it has no number that lasts. It is
// named by a mark of its point, to the last bit, and of its cell, in whose corners flights beside
// it start: with the spot a flight ends at and its rung that is all the flight hangs on
// (search/links.h, least_arc, rung and aside), whatever block or part the spot is of.
#pragma once

#include <cstdint>
#include <mutex>
#include <optional>
#include <vector>

#include "engine/leap/places/patch.h"
#include "geometry/vec.h"

namespace hummock::leap {

// A mark of a point, to the last bit, and of what was marked before.
std::uint64_t mixed_in(std::uint64_t h, geom::Vec3 v);

class GroundFlights {
 public:
  // More are not kept: 25 MB of them at most.
  static constexpr std::size_t kMostKept = 3 * (std::size_t{1} << 18);  // numeric, of memory

  explicit GroundFlights(std::size_t most_kept = kMostKept) : most_kept_(most_kept) {}

  struct Flight {
    std::uint64_t from = 0;      // mark of the spot
    std::uint32_t to_patch = 0;  // number given by FlightMemo; 0: nothing is kept of it
    int to = 0;                  // spot
    int rung = 0;
    bool steeper = true;
  };
  // Of its point, its cell and whether it is climbed: of two spots the same once in 2^64.
  static std::uint64_t mark_of(const SurfacePiece& from);
  // As FlightMemo's of the same names. Any number of threads may ask and tell at once.
  std::optional<int> find(const Flight& flight, std::uint16_t since) const;
  void keep(const Flight& flight, int found, std::uint16_t when);
  bool full() const;

 private:
  struct Slot {
    std::uint64_t from = 0;
    std::uint64_t name = 0;  // 0: free; in the last bits what was found
    std::uint16_t when = 0;
  };
  static std::optional<Slot> slot_of(const Flight& flight);
  static std::size_t mixed(const Slot& slot);
  static std::size_t seek(const std::vector<Slot>& slots, const Slot& slot);
  void grow();

  const std::size_t most_kept_;
  mutable std::mutex lock_;
  std::vector<Slot> slots_;  // open addressing, a power of two
  std::size_t used_ = 0;
};

}  // namespace hummock::leap
