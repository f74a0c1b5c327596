#include "engine/shade/cast/fast_exp.h"

#include <cstring>

#include "engine/shade/beam/eight_floats.h"

namespace hummock::shade {

// exp x = 2^n · exp r, |r| <= ln 2 / 2; the polynomial is that of Cephes' expf (Moshier, from
// memory), whose error is below 2e-7.
HUMMOCK_WIDE
void fade(const float* depth, float* value, std::size_t count) {
  constexpr float kPerLn2 = 1.44269504F, kLn2High = 0.693359375F, kLn2Low = -2.12194440e-4F;
  constexpr float kMost = 87.0F;         // beyond it a share is nothing
  constexpr float kRound = 12582912.0F;  // 1.5 · 2^23: adding it rounds to a whole number
  for (std::size_t k = 0; k < count; k += kWide) {
    Floats d, v;
    load(depth + k, d);
    load(value + k, v);
    const Flags gone = d > kMost;
    const Floats x = -(gone ? Floats{} : d);
    const Floats shifted = x * kPerLn2 + kRound;
    const Floats n = shifted - kRound;
    const Floats r = x - n * kLn2High - n * kLn2Low;
    Floats p = 1.9875691500e-4F * r + 1.3981999507e-3F;
    p = p * r + 8.3334519073e-3F;
    p = p * r + 4.1665795894e-2F;
    p = p * r + 1.6666665459e-1F;
    p = p * r + 5.0000001201e-1F;
    p = p * r * r + r + 1.0F;
    Flags power = __builtin_convertvector(n, Flags);
    power = (power + 127) << 23;
    Floats scale;
    std::memcpy(&scale, &power, sizeof scale);
    v *= gone ? Floats{} : p * scale;
    std::memcpy(value + k, &v, sizeof v);
  }
}

}  // namespace hummock::shade
