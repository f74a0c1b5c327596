// Eight numbers at a time, by the compiler's vector types: one wide register or two narrow ones.
#pragma once

#include <cstddef>
#include <cstring>

// Before a function: the same source for wide and narrow registers, picked at run time; no
// contraction, so the same bits from both.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(HUMMOCK_SANITIZED)
#define HUMMOCK_WIDE [[gnu::target_clones("avx2", "default")]]
#else
#define HUMMOCK_WIDE
#endif

namespace hummock::shade {

using Floats [[gnu::vector_size(32)]] = float;
using Flags [[gnu::vector_size(32)]] = int;  // −1 true, 0 false
inline constexpr std::size_t kWide = 8;      // of the two types, by definition

[[gnu::always_inline]] inline void load(const float* from, Floats& to) {
  std::memcpy(&to, from, sizeof to);
}

}  // namespace hummock::shade
