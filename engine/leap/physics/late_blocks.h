// What looking ahead (search/look_ahead.h) found of blocks of ground, from one search to the next.
//
// That all flights, steps and limbs from a block to a node of a patch need more than so much is
// told by their boxes alone: it holds in every scene with the same block and the same patch,
// whatever stands between and wherever else something was moved.
#pragma once

#include <cstdint>
#include <mutex>
#include <unordered_map>

#include "engine/leap/places/patch.h"

namespace hummock::leap {

class LateBlocks {
 public:
  // Then it begins anew: 20 MB of them at most.
  static constexpr std::size_t kMostKept = std::size_t{1} << 17;  // numeric, of memory

  struct Way {
    PatchPtr block;              // as laid (Folds::laid)
    double takeoff = 1.0;        // of the ground it is of
    std::uint32_t to_patch = 0;  // number given by FlightMemo; 0: nothing is kept of it
    int node = 0;                // of that patch's tree
  };
  // m; 0 where nothing was told. Any number of threads may ask and tell at once.
  double needs(const Way& way) const;
  void keep(const Way& way, double needs);

 private:
  struct Name {
    const Patch* block;
    std::uint64_t to;
    bool operator==(const Name&) const = default;
  };
  struct Hash {
    std::size_t operator()(const Name& name) const {
      const auto block = static_cast<std::uint64_t>(std::hash<const Patch*>{}(name.block));
      const std::uint64_t h = (block ^ (name.to * 0x9E3779B97F4A7C15ULL)) * 0xBF58476D1CE4E5B9ULL;
      return static_cast<std::size_t>(h ^ (h >> 32));
    }
  };
  struct Told {
    std::weak_ptr<const Patch> block;  // another may lie where it lay
    double takeoff, needs;
  };
  static Name name_of(const Way& way) {
    return {way.block.get(),
            (std::uint64_t{way.to_patch} << 32) | static_cast<std::uint32_t>(way.node)};
  }

  mutable std::mutex lock_;
  std::unordered_map<Name, Told, Hash> told_;
};

}  // namespace hummock::leap
