#include "engine/shade/cast/leaf_triangles.h"

#include <algorithm>
#include <bit>
#include <cstring>

#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

template <class Pick>
[[gnu::always_inline]] inline void pick_of_three(const Floats& a, const Floats& b, const Floats& c,
                                                 Floats& to) {
  Floats two;
  Pick::of(a, b, two);
  Pick::of(two, c, to);
}

// In the order of the sums a scalar would take: the same bits whatever the registers.
HUMMOCK_WIDE
void set_up_leaves(const LeafTriangles::Corners& corners, EightLeaves& to) {
  FloatPoint a, b, c;
  load_point(corners[0], a);
  load_point(corners[1], b);
  load_point(corners[2], c);
  DoubleWay u, v;
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
  set_sides(a, b, left, to.side[0]);
  set_sides(b, c, left, to.side[1]);
  set_sides(c, a, left, to.side[2]);
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
[[gnu::always_inline]] inline void judge_leaf(const EightLeaves& t, std::size_t k,
                                              const ShadowNodes& n, std::size_t first, float* out) {
  Floats qx, qy, qz;
  load(&n.qx[first], qx);
  load(&n.qy[first], qy);
  load(&n.z[first], qz);
  Flags outside = {};
  for (const EightSides& s : t.side)
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

// A bit for each run that has light, whose box meets that of the kth, and some node of which lies
// below the highest of it: no other is under it.
[[gnu::always_inline]] inline std::uint32_t runs_under(const EightLeaves& t, std::size_t k,
                                                       const ShadowNodes& n,
                                                       const LeafRuns& asked) {
  std::uint32_t runs = 0;
  for (std::size_t r = 0; r < ShadowNodes::kRuns; r += kWide) {
    RunBoxes b;
    load_runs(n, r, b);
    Floats lowest;
    load(&asked.lowest[r], lowest);
    const Flags meet = (b.x1 >= t.x0[k]) & (b.x0 <= t.x1[k]) & (b.y1 >= t.y0[k]) &
                       (b.y0 <= t.y1[k]) & (lowest < t.z_high[k]);
    runs |= bits_of(meet) << r;
  }
  return runs & asked.lit;
}

// Loops and no lambdas: what is not inlined would be compiled for narrow registers alone.
HUMMOCK_WIDE
bool scan_eight(const EightLeaves& t, const ShadowNodes& n, const LeafRuns& asked, float* out) {
  Floats x0, x1, y0, y1;
  load(t.x0.data(), x0);
  load(t.x1.data(), x1);
  load(t.y0.data(), y0);
  load(t.y1.data(), y1);
  Flags meet = (x0 <= n.x1) & (x1 >= n.x0) & (y0 <= n.y1) & (y1 >= n.y0);
  Flags outside = {}, part = {};
  for (const EightSides& s : t.side) beside_eight(n, s, outside, part);
  meet &= ~outside;
  const std::uint32_t any = bits_of(meet);
  for (std::uint32_t left = any; left != 0; left &= left - 1) {
    const auto k = static_cast<std::size_t>(std::countr_zero(left));
    for (std::uint32_t runs = runs_under(t, k, n, asked); runs != 0; runs &= runs - 1)
      judge_leaf(t, k, n, static_cast<std::size_t>(std::countr_zero(runs)) * kWide, out);
  }
  return any != 0;
}

HUMMOCK_WIDE
void lowest_of(const ShadowNodes& n, float* lowest) {
  for (std::size_t run = 0; run < ShadowNodes::kRuns; run += kWide) {
    std::array<Floats, kWide> z;
    for (std::size_t k = 0; k < kWide; ++k) load(&n.z[(run + k) * kWide], z[k]);
    Floats least;
    pick_of_each<Lesser>(z, least);
    std::memcpy(lowest + run, &least, sizeof least);
  }
}

ShadowBox box_of_leaves(const EightLeaves& t) {
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
    for (EightNumbers& of : corner)
      std::fill(of.begin() + static_cast<long>(held_), of.end(), 0.0F);
  held_ = 0;
  EightLeaves& next = eights_.emplace_back();
  set_up_leaves(corners_, next);
  const ShadowBox box = box_of_leaves(next);
  if (may_meet(box, nodes))
    boxes_.add(box);
  else
    eights_.pop_back();
}

bool LeafTriangles::scan(std::uint32_t k, const ShadowNodes& nodes, const LeafRuns& runs,
                         float* out) const {
  return scan_eight(eights_[k], nodes, runs, out);
}

void set_lowest(const ShadowNodes& nodes, LeafRuns& runs) {
  lowest_of(nodes, runs.lowest.data());
}

}  // namespace hummock::shade
