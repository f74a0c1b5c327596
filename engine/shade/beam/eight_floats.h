// Eight numbers at a time, by the compiler's vector types: one wide register or two narrow ones.
#pragma once

#include <cstddef>
#include <cstring>

namespace hummock::shade {

using Floats [[gnu::vector_size(32)]] = float;
using Flags [[gnu::vector_size(32)]] = int;  // −1 true, 0 false
inline constexpr std::size_t kWide = 8;      // of the two types, by definition

[[gnu::always_inline]] inline void load(const float* from, Floats& to) {
  std::memcpy(&to, from, sizeof to);
}

}  // namespace hummock::shade
