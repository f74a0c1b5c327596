// Corners of eight flat faces, member by member, and their sides in plan.
#pragma once

#include <array>
#include <cstdint>
#include <cstring>

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/shadow_nodes.h"

namespace hummock::shade {

using EightNumbers = std::array<float, kWide>;
using EightCorners = std::array<EightNumbers, 3>;  // x, y, z

// ShadowSides member by member.
struct EightSides {
  EightNumbers ax, ay, dx, dy;
  std::array<std::int32_t, kWide> negative;
};

using Doubles [[gnu::vector_size(64)]] = double;
using Longs [[gnu::vector_size(64)]] = std::int64_t;

struct FloatPoint {
  Floats x, y, z;
};
[[gnu::always_inline]] inline void load_point(const EightCorners& from, FloatPoint& to) {
  load(from[0].data(), to.x);
  load(from[1].data(), to.y);
  load(from[2].data(), to.z);
}

template <class To, class From>
[[gnu::always_inline]] inline void store(const From& from, To& to) {
  static_assert(sizeof from == sizeof to);
  std::memcpy(&to, &from, sizeof from);
}

// The way from a to b.
struct DoubleWay {
  Doubles x, y, z;
};
[[gnu::always_inline]] inline void way(const FloatPoint& a, const FloatPoint& b, DoubleWay& to) {
  to.x = __builtin_convertvector(b.x, Doubles) - __builtin_convertvector(a.x, Doubles);
  to.y = __builtin_convertvector(b.y, Doubles) - __builtin_convertvector(a.y, Doubles);
  to.z = __builtin_convertvector(b.z, Doubles) - __builtin_convertvector(a.z, Doubles);
}

// As shadow_side() with `left` inside (-1).
[[gnu::always_inline]] inline void set_sides(const FloatPoint& a, const FloatPoint& b,
                                             const Flags& left, EightSides& to) {
  const Flags swapped = (b.x < a.x) | ((b.x == a.x) & (b.y < a.y));
  const Floats ax = swapped ? b.x : a.x, bx = swapped ? a.x : b.x;
  const Floats ay = swapped ? b.y : a.y, by = swapped ? a.y : b.y;
  store(ax, to.ax);
  store(ay, to.ay);
  store(bx - ax, to.dx);
  store(by - ay, to.dy);
  store(-(left ^ swapped), to.negative);
}

// As beside() of each: adds those whose side the nodes' box lies certainly outside of, and those
// it does not certainly lie inside of.
[[gnu::always_inline]] inline void beside_eight(const ShadowNodes& n, const EightSides& s,
                                                Flags& outside, Flags& part) {
  Floats ax, ay, dx, dy;
  load(s.ax.data(), ax);
  load(s.ay.data(), ay);
  load(s.dx.data(), dx);
  load(s.dy.data(), dy);
  Flags negative;
  std::memcpy(&negative, s.negative.data(), sizeof negative);
  const Floats xa = (n.x0 - ax) * dy, xb = (n.x1 - ax) * dy;
  const Floats ya = (n.y0 - ay) * dx, yb = (n.y1 - ay) * dx;
  Floats x0, x1, y0, y1, x, y;
  Lesser::of(xa, xb, x0);
  Greater::of(xa, xb, x1);
  Lesser::of(ya, yb, y0);
  Greater::of(ya, yb, y1);
  Greater::of(xa < 0.0F ? -xa : xa, xb < 0.0F ? -xb : xb, x);
  Greater::of(ya < 0.0F ? -ya : ya, yb < 0.0F ? -yb : yb, y);
  const Floats lo = x0 - y1, hi = x1 - y0, slack = 1e-6F * (x + y);
  const Flags above = lo - slack > 0.0F, below = hi + slack < 0.0F;
  outside |= (negative != 0) ? above : below;
  part |= ~((negative != 0) ? below : above);
}

}  // namespace hummock::shade
