#include "engine/shade/cast/leaf_triangles.h"

#include <algorithm>
#include <bit>
#include <cstring>

#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

using Doubles [[gnu::vector_size(64)]] = double;
using Longs [[gnu::vector_size(64)]] = std::int64_t;
using Eight = EightLeaves::Eight;

struct Point {
  Floats x, y, z;
};
[[gnu::always_inline]] inline void load_point(const std::array<Eight, 3>& from, Point& to) {
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
struct Way3 {
  Doubles x, y, z;
};
[[gnu::always_inline]] inline void way(const Point& a, const Point& b, Way3& to) {
  to.x = __builtin_convertvector(b.x, Doubles) - __builtin_convertvector(a.x, Doubles);
  to.y = __builtin_convertvector(b.y, Doubles) - __builtin_convertvector(a.y, Doubles);
  to.z = __builtin_convertvector(b.z, Doubles) - __builtin_convertvector(a.z, Doubles);
}

// As shadow_side() with `left` inside (-1).
[[gnu::always_inline]] inline void set_side(const Point& a, const Point& b, const Flags& left,
                                            EightLeaves::Side& to) {
  const Flags swapped = (b.x < a.x) | ((b.x == a.x) & (b.y < a.y));
  const Floats ax = swapped ? b.x : a.x, bx = swapped ? a.x : b.x;
  const Floats ay = swapped ? b.y : a.y, by = swapped ? a.y : b.y;
  store(ax, to.ax);
  store(ay, to.ay);
  store(bx - ax, to.dx);
  store(by - ay, to.dy);
  store(-(left ^ swapped), to.negative);
}

template <class Pick>
[[gnu::always_inline]] inline void pick_of_three(const Floats& a, const Floats& b, const Floats& c,
                                                 Floats& to) {
  Floats two;
  Pick::of(a, b, two);
  Pick::of(two, c, to);
}

// In the order of the sums a scalar would take: the same bits whatever the registers.
HUMMOCK_WIDE
void set_up(const LeafTriangles::Corners& corners, EightLeaves& to) {
  Point a, b, c;
  load_point(corners[0], a);
  load_point(corners[1], b);
  load_point(corners[2], c);
  Way3 u, v;
  way(a, b, u);
  way(a, c, v);
  const Doubles area = u.x * v.y - u.y * v.x;
  const Flags none = __builtin_convertvector(Longs(area == 0.0), Flags);
  const Flags left = __builtin_convertvector(Longs(area > 0.0), Flags);
  const Floats far = Floats{} + 1e30F;
  Floats x0, x1, y0, y1, z;
  pick_of_three<Lesser>(a.x, b.x, c.x, x0);
  pick_of_three<Greater>(a.x, b.x, c.x, x1);
  pick_of_three<Lesser>(a.y, b.y, c.y, y0);
  pick_of_three<Greater>(a.y, b.y, c.y, y1);
  store(none ? far : x0, to.x0);
  store(none ? -far : x1, to.x1);
  store(none ? far : y0, to.y0);
  store(none ? -far : y1, to.y1);
  pick_of_three<Lesser>(a.z, b.z, c.z, z);
  store(z, to.z_low);
  pick_of_three<Greater>(a.z, b.z, c.z, z);
  store(z, to.z_high);
  set_side(a, b, left, to.side[0]);
  set_side(b, c, left, to.side[1]);
  set_side(c, a, left, to.side[2]);
  store(a.z, to.z0);
  store(a.x, to.px);
  store(a.y, to.py);
  const Floats zx = __builtin_convertvector((u.z * v.y - v.z * u.y) / area, Floats);
  const Floats zy = __builtin_convertvector((u.x * v.z - v.x * u.z) / area, Floats);
  store(none ? Floats{} : zx, to.zx);
  store(none ? Floats{} : zy, to.zy);
  store(left ? Floats{} + 1.0F : Floats{} - 1.0F, to.sign);
}

// The kth of eight over a run of nodes.
[[gnu::always_inline]] inline void judge(const EightLeaves& t, std::size_t k, const ShadowNodes& n,
                                         std::size_t first, float* out) {
  Floats qx, qy, qz;
  load(&n.qx[first], qx);
  load(&n.qy[first], qy);
  load(&n.z[first], qz);
  Flags outside = {};
  for (const EightLeaves::Side& s : t.side)
    add_outside({s.ax[k], s.ay[k], s.dx[k], s.dy[k], s.negative[k]}, qx, qy, outside);
  Floats top = t.z0[k] + t.zx[k] * (qx - t.px[k]) + t.zy[k] * (qy - t.py[k]);
  top = top < t.z_low[k] ? Floats{} + t.z_low[k] : top;
  top = top > t.z_high[k] ? Floats{} + t.z_high[k] : top;
  const Floats above = top - qz;
  const Flags under = (outside == 0) & (above > 0.0F);
  Floats o;
  load(out + first, o);
  o += under ? t.sign[k] * above : Floats{};
  std::memcpy(out + first, &o, sizeof o);
}

// Of eight triangles in plan: is the box of all nodes certainly outside the side? As beside().
[[gnu::always_inline]] inline void beside_none(const ShadowNodes& n, const EightLeaves::Side& s,
                                               Flags& none) {
  Floats ax, ay, dx, dy;
  load(s.ax.data(), ax);
  load(s.ay.data(), ay);
  load(s.dx.data(), dx);
  load(s.dy.data(), dy);
  Flags negative;
  std::memcpy(&negative, s.negative.data(), sizeof negative);
  const Floats xa = (n.x0 - ax) * dy, xb = (n.x1 - ax) * dy;
  const Floats ya = (n.y0 - ay) * dx, yb = (n.y1 - ay) * dx;
  Floats x0, x1, y0, y1;
  Lesser::of(xa, xb, x0);
  Greater::of(xa, xb, x1);
  Lesser::of(ya, yb, y0);
  Greater::of(ya, yb, y1);
  const Floats lo = x0 - y1, hi = x1 - y0;
  Floats x, y;
  Greater::of(xa < 0.0F ? -xa : xa, xb < 0.0F ? -xb : xb, x);
  Greater::of(ya < 0.0F ? -ya : ya, yb < 0.0F ? -yb : yb, y);
  const Floats slack = 1e-6F * (x + y);
  none |= (negative != 0) ? lo - slack > 0.0F : hi + slack < 0.0F;
}

struct PlanBox {
  float x0, x1, y0, y1;
};

// Loops and no lambdas: what is not inlined would be compiled for narrow registers alone.
HUMMOCK_WIDE
bool scan_eight(const EightLeaves& t, const ShadowNodes& n, float* out) {
  Floats x0, x1, y0, y1;
  load(t.x0.data(), x0);
  load(t.x1.data(), x1);
  load(t.y0.data(), y0);
  load(t.y1.data(), y1);
  Flags meet = (x0 <= n.x1) & (x1 >= n.x0) & (y0 <= n.y1) & (y1 >= n.y0);
  Flags none = {};
  for (const EightLeaves::Side& s : t.side) beside_none(n, s, none);
  meet &= ~none;
  const std::uint32_t any = bits_of(meet);
  for (std::uint32_t left = any; left != 0; left &= left - 1) {
    const auto k = static_cast<std::size_t>(std::countr_zero(left));
    const PlanBox box{t.x0[k], t.x1[k], t.y0[k], t.y1[k]};
    for (std::uint32_t runs = runs_meeting(n, box); runs != 0; runs &= runs - 1)
      judge(t, k, n, static_cast<std::size_t>(std::countr_zero(runs)) * kWide, out);
  }
  return any != 0;
}

ShadowBox box_of(const EightLeaves& t) {
  ShadowBox b;
  b.x0 = *std::min_element(t.x0.begin(), t.x0.end());
  b.x1 = *std::max_element(t.x1.begin(), t.x1.end());
  b.y0 = *std::min_element(t.y0.begin(), t.y0.end());
  b.y1 = *std::max_element(t.y1.begin(), t.y1.end());
  b.across0 = -1e30F, b.across1 = 1e30F;
  b.z_high = 1e30F;
  return b;
}

}  // namespace

void LeafTriangles::clear() {
  held_ = 0;
  eights_.clear();
  boxes_.clear();
}

void LeafTriangles::add(const ShadowPoint& a, const ShadowPoint& b, const ShadowPoint& c,
                        const ShadedBox& nodes) {
  const auto put = [&](std::size_t corner, const ShadowPoint& p) {
    corners_[corner][0][held_] = p.x;
    corners_[corner][1][held_] = p.y;
    corners_[corner][2][held_] = p.z;
  };
  put(0, a);
  put(1, b);
  put(2, c);
  if (++held_ == kWide) close(nodes);
}

void LeafTriangles::close(const ShadedBox& nodes) {
  if (held_ == 0) return;
  for (auto& corner : corners_)
    for (Eight& of : corner) std::fill(of.begin() + static_cast<long>(held_), of.end(), 0.0F);
  held_ = 0;
  EightLeaves& next = eights_.emplace_back();
  set_up(corners_, next);
  const ShadowBox box = box_of(next);
  if (may_meet(box, nodes))
    boxes_.add(box);
  else
    eights_.pop_back();
}

bool LeafTriangles::scan(std::uint32_t k, const ShadowNodes& nodes, float* out) const {
  return scan_eight(eights_[k], nodes, out);
}

}  // namespace hummock::shade
