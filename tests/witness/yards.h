// Random small yards from families of traps: the same text for the same seed on every machine.
//
// Each family builds one thing that a list of places and exits may miss, with random measures, as a
// site file and what it needs. The rest of the yard is held so high that only the trap matters. All
// animals are invented.
#pragma once

#include <cstdint>
#include <functional>
#include <map>

#include "tests/witness/way_out.h"

namespace hummock::witness {

// SplitMix64 (Steele, Lea & Flood 2014): 64 bits of state, the same everywhere.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  double between(double lo, double hi);  // rounded to a millimetre where it is large enough
  int below(int n);
  bool chance(double share) { return between(0.0, 1.0) < share; }

 private:
  std::uint64_t state_;
};

struct RandomYard {
  std::string family;
  unsigned seed = 0;
  std::string site, species;                 // texts
  std::map<std::string, std::string> files;  // name → text, beside the site
  std::vector<Vec2> outline;
  Animal animal;
  std::optional<Vec2> start;
};

inline constexpr double kAskedMargin = 1.3;  // of every yard's brief

const std::vector<std::string>& families();
RandomYard random_yard(const std::string& family, unsigned seed);

}  // namespace hummock::witness
