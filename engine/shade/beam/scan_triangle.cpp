#include "engine/shade/beam/scan_triangle.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "engine/shade/beam/outside.h"

namespace hummock::shade {
namespace {

// Which of the nodes at (qx, qy, z) lie under the triangle, and how far it is above them.
struct Under {
  Flags under;
  Floats above;
};
[[gnu::always_inline]] inline void judge(const ShadowTriangle& t, const float* x, const float* y,
                                         const float* z, Under& u) {
  Floats qx, qy, qz;
  load(x, qx);
  load(y, qy);
  load(z, qz);
  Flags out = {};
  for (const ShadowSide& side : t.side) add_outside(side, qx, qy, out);
  Floats top = t.z0 + t.zx * (qx - t.px) + t.zy * (qy - t.py);
  top = top < t.z_low ? Floats{} + t.z_low : top;
  top = top > t.z_high ? Floats{} + t.z_high : top;
  u.above = top - qz;
  u.under = (out == 0) & (u.above > 0.0F);
}

// Calls work(first node) for each run of nodes whose range meets the triangle's.
template <class Work>
[[gnu::always_inline]] inline void for_runs(const ShadowNodes& n, const ShadowTriangle& t,
                                            const Work& work) {
  static_assert(ShadowNodes::kRun == kWide);
  for (std::size_t r = 0; r < ShadowNodes::kRuns; r += kWide) {
    Floats x0, x1, y0, y1;
    load(&n.run_x0[r], x0);
    load(&n.run_x1[r], x1);
    load(&n.run_y0[r], y0);
    load(&n.run_y1[r], y1);
    const Flags meet = (x1 >= t.x0) & (x0 <= t.x1) & (y1 >= t.y0) & (y0 <= t.y1);
    std::array<std::uint64_t, kWide / 2> two{};
    std::memcpy(two.data(), &meet, sizeof meet);
    for (std::size_t k = 0; k < kWide; k += 2) {
      if (two[k / 2] == 0) continue;
      if (meet[k] != 0) work((r + k) * kWide);
      if (meet[k + 1] != 0) work((r + k + 1) * kWide);
    }
  }
}

}  // namespace

ShadowNodes shadow_nodes(const Tile& tile, const SunRay& sun, Vec3 ref) {
  ShadowNodes n;
  const auto cx = static_cast<float>(sun.run.x);
  const auto cy = static_cast<float>(sun.run.y);
  const Vec3 off = tile.ref - ref;
  const auto up = static_cast<float>(off.z);
  const auto x = static_cast<float>(off.x - off.z * sun.run.x);
  const auto y = static_cast<float>(off.y - off.z * sun.run.y);
  n.z_top = static_cast<float>(tile.box.hi.z - ref.z);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    n.qx[k] = x + (tile.x[k] - tile.z[k] * cx);
    n.qy[k] = y + (tile.y[k] - tile.z[k] * cy);
    n.z[k] = up + tile.z[k];
  }
  n.x0 = n.y0 = 1e30F;
  n.x1 = n.y1 = -1e30F;
  for (std::size_t run = 0; run < ShadowNodes::kRuns; ++run) {
    float x0 = 1e30F, x1 = -1e30F, y0 = 1e30F, y1 = -1e30F;
    for (std::size_t k = run * ShadowNodes::kRun; k < (run + 1) * ShadowNodes::kRun; ++k) {
      x0 = std::min(x0, n.qx[k]);
      x1 = std::max(x1, n.qx[k]);
      y0 = std::min(y0, n.qy[k]);
      y1 = std::max(y1, n.qy[k]);
    }
    n.run_x0[run] = x0;
    n.run_x1[run] = x1;
    n.run_y0[run] = y0;
    n.run_y1[run] = y1;
    n.x0 = std::min(n.x0, x0);
    n.x1 = std::max(n.x1, x1);
    n.y0 = std::min(n.y0, y0);
    n.y1 = std::max(n.y1, y1);
  }
  return n;
}

namespace {

// Twice the area in plan; its parts are the way from a to b and to c.
struct Sides {
  double ux, uy, uz, vx, vy, vz;
  Sides(const ShadowPoint& a, const ShadowPoint& b, const ShadowPoint& c)
      : ux(double{b.x} - a.x),
        uy(double{b.y} - a.y),
        uz(double{b.z} - a.z),
        vx(double{c.x} - a.x),
        vy(double{c.y} - a.y),
        vz(double{c.z} - a.z) {}
  double area() const { return ux * vy - uy * vx; }
};

void set_plane(const Sides& s, double area, const ShadowPoint& a, ShadowTriangle& t) {
  t.px = a.x;
  t.py = a.y;
  t.z0 = a.z;
  t.zx = static_cast<float>((s.uz * s.vy - s.vz * s.uy) / area);
  t.zy = static_cast<float>((s.ux * s.vz - s.vx * s.uz) / area);
}

// By the sides alone.
Touch beside_all(const ShadowNodes& n, const ShadowTriangle& t) {
  bool whole = true;
  for (const ShadowSide& side : t.side) {
    const Touch one = beside(n, side);
    if (one == Touch::none) return Touch::none;
    whole = whole && one == Touch::whole;
  }
  return whole ? Touch::whole : Touch::part;
}

}  // namespace

ShadowSide shadow_side(ShadowPoint a, ShadowPoint b, bool left_inside) {
  const bool swapped = b.x < a.x || (b.x == a.x && b.y < a.y);
  if (swapped) std::swap(a, b);
  return {a.x, a.y, b.x - a.x, b.y - a.y, left_inside != swapped ? 1 : 0};
}

Touch beside(const ShadowNodes& n, const ShadowSide& s) {
  const float xa = (n.x0 - s.ax) * s.dy, xb = (n.x1 - s.ax) * s.dy;
  const float ya = (n.y0 - s.ay) * s.dx, yb = (n.y1 - s.ay) * s.dx;
  const float lo = std::min(xa, xb) - std::max(ya, yb);
  const float hi = std::max(xa, xb) - std::min(ya, yb);
  // A little slack for the rounding of E at the nodes.
  const float slack =
      1e-6F * (std::max(std::abs(xa), std::abs(xb)) + std::max(std::abs(ya), std::abs(yb)));
  if (s.negative != 0) {
    if (lo - slack > 0.0F) return Touch::none;
    return hi + slack < 0.0F ? Touch::whole : Touch::part;
  }
  if (hi + slack < 0.0F) return Touch::none;
  return lo - slack > 0.0F ? Touch::whole : Touch::part;
}

Touch touch(const ShadowNodes& n, const ShadowPoint& a, const ShadowPoint& b, const ShadowPoint& c,
            ShadowTriangle& t) {
  t.x0 = std::min({a.x, b.x, c.x});
  t.x1 = std::max({a.x, b.x, c.x});
  t.y0 = std::min({a.y, b.y, c.y});
  t.y1 = std::max({a.y, b.y, c.y});
  if (n.x1 < t.x0 || n.x0 > t.x1 || n.y1 < t.y0 || n.y0 > t.y1) return Touch::none;
  const Sides sides(a, b, c);
  const double area = sides.area();
  if (area == 0.0) return Touch::none;
  const bool left = area > 0.0;
  t.side = {shadow_side(a, b, left), shadow_side(b, c, left), shadow_side(c, a, left)};
  const Touch by_sides = beside_all(n, t);
  if (by_sides == Touch::none) return Touch::none;
  set_plane(sides, area, a, t);
  t.z_low = std::min({a.z, b.z, c.z});
  t.z_high = std::max({a.z, b.z, c.z});
  if (by_sides == Touch::part) return Touch::part;
  const float lowest = t.z0 + std::min(t.zx * (n.x0 - t.px), t.zx * (n.x1 - t.px)) +
                       std::min(t.zy * (n.y0 - t.py), t.zy * (n.y1 - t.py));
  return std::max(lowest, t.z_low) > n.z_top + 1e-4F ? Touch::whole : Touch::part;
}

HUMMOCK_WIDE
void scan_height(const ShadowNodes& n, const ShadowTriangle& t, float sign, float* out) {
  for_runs(n, t, [&](std::size_t k) {
    Under u;
    judge(t, &n.qx[k], &n.qy[k], &n.z[k], u);
    Floats o;
    load(out + k, o);
    o += u.under ? sign * u.above : Floats{};
    std::memcpy(out + k, &o, sizeof o);
  });
}

}  // namespace hummock::shade
