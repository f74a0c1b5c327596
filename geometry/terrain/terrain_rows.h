// Row kernels shared by the whole-raster metrics and the fused sums.
//
// Each works on three neighbouring rows of n nodes, s (south), m (middle), t (north), and writes
// entries 1..n−2. Internal to geometry.
#pragma once

#include <algorithm>
#include <cmath>

#include "geometry/vec.h"

namespace hummock::geom::rows {

struct Three {
  const double* s;
  const double* m;
  const double* t;
};

// Horn's gradient times 8·cell. Sums of opposite neighbours first: exact symmetry under mirroring.
inline double gx8(const Three& r, int i) {
  return (r.t[i + 1] - r.t[i - 1]) + 2.0 * (r.m[i + 1] - r.m[i - 1]) + (r.s[i + 1] - r.s[i - 1]);
}
inline double gy8(const Three& r, int i) {
  return (r.t[i + 1] - r.s[i + 1]) + 2.0 * (r.t[i] - r.s[i]) + (r.t[i - 1] - r.s[i - 1]);
}

inline double square(double v) {
  return v * v;
}

inline double ruggedness(const Three& r, int i) {
  const double c = r.m[i];
  return std::sqrt(square(r.s[i - 1] - c) + square(r.s[i] - c) + square(r.s[i + 1] - c) +
                   square(r.m[i - 1] - c) + square(r.m[i + 1] - c) + square(r.t[i - 1] - c) +
                   square(r.t[i] - c) + square(r.t[i + 1] - c));
}

inline double position(const Three& r, int i) {
  const double sum = (r.s[i - 1] + r.s[i + 1] + r.t[i - 1] + r.t[i + 1]) +
                     (r.s[i] + r.t[i] + r.m[i - 1] + r.m[i + 1]);
  return r.m[i] - sum * 0.125;
}

inline double max3(double a, double b, double c) {
  const double ab = a > b ? a : b;
  return ab > c ? ab : c;
}
inline double min3(double a, double b, double c) {
  const double ab = a < b ? a : b;
  return ab < c ? ab : c;
}
inline double roughness(const Three& r, int i) {
  const double hi = max3(max3(r.s[i - 1], r.s[i], r.s[i + 1]), max3(r.m[i - 1], r.m[i], r.m[i + 1]),
                         max3(r.t[i - 1], r.t[i], r.t[i + 1]));
  const double lo = min3(min3(r.s[i - 1], r.s[i], r.s[i + 1]), min3(r.m[i - 1], r.m[i], r.m[i + 1]),
                         min3(r.t[i - 1], r.t[i], r.t[i + 1]));
  return hi - lo;
}

// atan of x >= 0 without a branch, absolute error below 3e-7 rad. Range reduction at tan(π/8) and
// tan(3π/8) with the degree-9 polynomial of S. Moshier's Cephes library (atanf).
inline float atan_positive(float x) {
  const bool steep = x > 2.414213562373095F;
  const bool middle = x > 0.4142135623730950F;
  const float top = steep ? -1.0F : (middle ? x - 1.0F : x);
  const float low = steep ? x : (middle ? x + 1.0F : 1.0F);
  const float base = steep ? 1.5707963267948966F : (middle ? 0.7853981633974483F : 0.0F);
  const float q = top / low;
  const float z = q * q;
  const float p = (((8.05374449538e-2F * z - 1.38776856032e-1F) * z + 1.99777106478e-1F) * z -
                   3.33329491539e-1F) *
                      z * q +
                  q;
  return base + p;
}

}  // namespace hummock::geom::rows
