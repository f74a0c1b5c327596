// e to a power for many numbers at once.
#pragma once

#include <cstddef>

namespace hummock::shade {

// value[k] *= exp(−depth[k]) for count numbers, a multiple of eight; depths >= 0. Within 3e-7 of
// the share (tested against the library's); 0 beyond 87.
void fade(const float* depth, float* value, std::size_t count);

}  // namespace hummock::shade
