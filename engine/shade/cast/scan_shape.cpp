#include "engine/shade/cast/scan_shape.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>

#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {

namespace {

constexpr float kSlack = 1e-6F;  // of the products, for the rounding of E

// Which of eight runs of nodes may hold nodes inside the side, by their boxes.
[[gnu::always_inline]] inline void may_hold(const ShadowNodes& n, std::size_t r,
                                            const ShadowSide& s, Flags& may) {
  const bool inside_above = s.negative == 0;  // inside is where E is greater
  Floats x, y;
  load((s.dy > 0.0F) == inside_above ? &n.run_x1[r] : &n.run_x0[r], x);
  load((s.dx > 0.0F) == inside_above ? &n.run_y0[r] : &n.run_y1[r], y);
  const Floats a = (x - s.ax) * s.dy, b = (y - s.ay) * s.dx;
  const Floats slack = kSlack * ((a < 0.0F ? -a : a) + (b < 0.0F ? -b : b));
  may &= inside_above ? a - b + slack >= 0.0F : a - b - slack <= 0.0F;
}

// Height of a foot at a way along it; beyond its ends as at them.
float foot_at(const std::vector<std::array<float, 2>>& foot, float way) {
  const auto next = std::upper_bound(foot.begin(), foot.end(), way,
                                     [](float w, const auto& f) { return w < f[0]; });
  if (next == foot.begin()) return foot.front()[1];
  if (next == foot.end()) return foot.back()[1];
  const auto &a = *(next - 1), &b = *next;
  return a[1] + (b[1] - a[1]) * ((way - a[0]) / (b[0] - a[0]));
}

[[gnu::always_inline]] inline void judge(const ShadowNodes& n, std::size_t k, const ShadowShape& s,
                                         Flags& under) {
  Floats qx, qy, qz;
  load(&n.qx[k], qx);
  load(&n.qy[k], qy);
  load(&n.z[k], qz);
  Flags out = {};
  for (std::size_t i = 0; i < s.sides; ++i) {
    add_outside(s.side[i], qx, qy, out);
  }
  if (s.planes > 0) {
    Floats top = Floats{} + s.z_high;
    for (std::size_t i = 0; i < s.planes; ++i) {
      const ShadowPlane& p = *s.plane[i];
      const Floats at = p.z0 + p.zx * qx + p.zy * qy;
      top = at < top ? at : top;
    }
    top = top < s.z_low ? Floats{} + s.z_low : top;
    out |= ~(top - qz > 0.0F);
  }
  under = out == 0;
}

void keep_over_foot(const ShadowNodes& n, std::size_t k, const ShadowShape& s, Flags& under) {
  for (std::size_t i = 0; i < kWide; ++i) {
    if (under[i] == 0) continue;
    const float x = n.qx[k + i], y = n.qy[k + i];
    const float way = s.way + s.way_x * x + s.way_y * y;
    if (s.plane[0]->at(x, y) <= foot_at(*s.foot, way)) under[i] = 0;
  }
}

}  // namespace

HUMMOCK_WIDE
bool set_sides_asked(const ShadowNodes& n, const EightSides* sides, std::size_t count,
                     ShadowShape& shape) {
  shape.sides = 0;
  for (std::size_t first = 0; first < count; first += kWide, ++sides) {
    const std::uint32_t held = count - first >= kWide ? 0xFFU : (1U << (count - first)) - 1U;
    Flags outside = {}, part = {};
    beside_eight(n, *sides, outside, part);
    if ((bits_of(outside) & held) != 0) return false;
    for (std::uint32_t left = bits_of(part) & held; left != 0; left &= left - 1) {
      const auto k = static_cast<std::size_t>(std::countr_zero(left));
      shape.side[shape.sides++] = {sides->ax[k], sides->ay[k], sides->dx[k], sides->dy[k],
                                   sides->negative[k]};
    }
  }
  return true;
}

HUMMOCK_WIDE
std::uint32_t runs_near(const ShadowNodes& n, const ShadowBox& box) {
  return runs_meeting(n, box);
}

HUMMOCK_WIDE
std::uint32_t scan_shape(const ShadowNodes& n, const ShadowShape& s, std::uint32_t near,
                         float factor, float* out) {
  std::uint32_t runs = 0;
  constexpr std::uint32_t kEight = (1U << kWide) - 1U;
  for (std::size_t r = 0; r < ShadowNodes::kRuns; r += kWide) {
    const std::uint32_t here = near >> r & kEight;
    if (here == 0) continue;
    Flags may = ~Flags{};
    for (std::size_t i = 0; i < s.sides; ++i) may_hold(n, r, s.side[i], may);
    runs |= (bits_of(may) & here) << r;
  }
  std::uint32_t dark = 0;
  for (; runs != 0; runs &= runs - 1) {
    const int run = std::countr_zero(runs);
    const std::size_t first = static_cast<std::size_t>(run) * kWide;
    Flags under;
    judge(n, first, s, under);
    if (s.foot != nullptr) keep_over_foot(n, first, s, under);
    Floats o;
    load(out + first, o);
    o *= under ? Floats{} + factor : Floats{} + 1.0F;
    std::memcpy(out + first, &o, sizeof o);
    if (bits_of(o > 0.0F) == 0) dark |= std::uint32_t{1} << run;
  }
  return dark;
}

}  // namespace hummock::shade
