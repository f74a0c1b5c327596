// What was found of flights between spots, so that no search of one scene tests again what another
// has: from thing after thing the ways out are sought, and all come to the same pockets.
//
// A flight is named by its spots and its rung (search/links.h), which with the animal's figures are
// all that it hangs on besides the scene. A memo is of one scene and one set of link rules. Of
// another scene, which differs from it within some boxes only, it tells the flights that pass none
// of them (physics/known_flights.h). Answers are the same with it and without; any number of
// threads may ask and tell at once.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <tuple>
#include <vector>

#include "engine/leap/physics/ground_flights.h"
#include "engine/leap/physics/late_blocks.h"
#include "engine/leap/places/patch.h"

namespace hummock::leap {

class FlightMemo {
 public:
  // More are not kept: 50 MB of them at most.
  static constexpr std::size_t kMostKept = 3 * (std::size_t{1} << 19);  // numeric, of memory

  // Keeps one of so many parts of that, and of the flights from the ground.
  explicit FlightMemo(std::size_t part = 1)
      : most_kept_(kMostKept / part),
        from_ground_(std::min(GroundFlights::kMostKept, kMostKept / part)) {}

  struct Flight {
    std::uint32_t from_patch = 0, to_patch = 0;  // numbers given by `number`
    int from = 0, to = 0;                        // spots
    int rung = 0;
    bool steeper = true;
  };
  // What way_found (search/flight_tests.h) said of it; nothing where it was not told at `since` or
  // later, by whatever count of the scene's changes.
  std::optional<int> find(const Flight& flight, std::uint16_t since = 0) const;
  void keep(const Flight& flight, int found, std::uint16_t when = 0);
  bool full() const;  // most of what is told is kept no more

  // A number of the patch, from 1 on, the same for every one of its part with the same spots in
  // the same order; of two others the same once in 2^64. Not for several threads at once.
  std::uint32_t number(const PatchPtr& patch);
  std::size_t numbered() const { return numbers_.size(); }

  // Those that leave from the ground, to patches of these numbers.
  GroundFlights& from_ground() { return from_ground_; }
  // Of any scene, to patches of these numbers.
  LateBlocks& late_blocks() { return late_blocks_; }

 private:
  struct Slot {
    std::uint64_t patches = 0;  // 0: free
    std::uint64_t spots = 0;    // spots and rung, told apart; in the last bits what was found
    std::uint16_t when = 0;
  };
  struct Shard {
    mutable std::mutex lock;
    std::vector<Slot> slots;  // open addressing, a power of two
    std::size_t used = 0;
  };
  static std::optional<Slot> slot_of(const Flight& flight);
  static std::size_t seek(const std::vector<Slot>& slots, const Slot& slot);
  static void grow(Shard& shard);
  static std::size_t mixed(const Slot& slot);

  static constexpr std::size_t kShards = 32;  // numeric: fewer threads than this wait on each other
  std::array<Shard, kShards> shards_;
  struct Known {
    std::weak_ptr<const Patch> patch;  // another may lie where it lay
    std::uint32_t number = 0;
  };
  using Spots = std::tuple<int, std::size_t, std::uint64_t>;  // part, their count, their mark
  const std::size_t most_kept_;
  std::uint32_t numbered_ = 0;
  std::map<const Patch*, Known> numbers_;
  std::map<Spots, std::uint32_t> of_spots_;
  GroundFlights from_ground_;
  LateBlocks late_blocks_;
};

}  // namespace hummock::leap
