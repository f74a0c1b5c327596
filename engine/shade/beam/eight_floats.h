// Eight numbers at a time, by the compiler's vector types: one wide register or two narrow ones.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#if defined(__SSE__) && defined(__x86_64__)
#include <xmmintrin.h>
#endif

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

// A bit for each that is set, the kth of the kth.
[[gnu::always_inline]] inline std::uint32_t bits_of(const Flags& flags) {
#if defined(__SSE__) && defined(__x86_64__)
  Floats f;
  std::memcpy(&f, &flags, sizeof f);
  const int low = _mm_movemask_ps(__builtin_shufflevector(f, f, 0, 1, 2, 3));
  const int high = _mm_movemask_ps(__builtin_shufflevector(f, f, 4, 5, 6, 7));
  return static_cast<std::uint32_t>(low | high << 4);
#else
  std::uint32_t bits = 0;
  for (std::size_t k = 0; k < kWide; ++k) bits |= flags[k] != 0 ? std::uint32_t{1} << k : 0;
  return bits;
#endif
}

struct Lesser {
  [[gnu::always_inline]] static void of(const Floats& a, const Floats& b, Floats& to) {
    to = a < b ? a : b;
  }
};
struct Greater {
  [[gnu::always_inline]] static void of(const Floats& a, const Floats& b, Floats& to) {
    to = a > b ? a : b;
  }
};

// The kth of `to`: the least (or greatest) of the eight numbers of v[k].
template <class Pick>
[[gnu::always_inline]] inline void pick_of_each(const std::array<Floats, kWide>& v, Floats& to) {
  std::array<Floats, kWide / 2> two;   // lanes: by turns of v[2k] and v[2k + 1]
  std::array<Floats, kWide / 4> four;  // by turns of v[4k] to v[4k + 3]
  for (std::size_t k = 0; k < two.size(); ++k)
    Pick::of(__builtin_shufflevector(v[2 * k], v[2 * k + 1], 0, 8, 2, 10, 4, 12, 6, 14),
             __builtin_shufflevector(v[2 * k], v[2 * k + 1], 1, 9, 3, 11, 5, 13, 7, 15), two[k]);
  for (std::size_t k = 0; k < four.size(); ++k)
    Pick::of(__builtin_shufflevector(two[2 * k], two[2 * k + 1], 0, 1, 8, 9, 4, 5, 12, 13),
             __builtin_shufflevector(two[2 * k], two[2 * k + 1], 2, 3, 10, 11, 6, 7, 14, 15),
             four[k]);
  Pick::of(__builtin_shufflevector(four[0], four[1], 0, 1, 2, 3, 8, 9, 10, 11),
           __builtin_shufflevector(four[0], four[1], 4, 5, 6, 7, 12, 13, 14, 15), to);
}

}  // namespace hummock::shade
