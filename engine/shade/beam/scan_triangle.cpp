#include "engine/shade/beam/scan_triangle.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "engine/shade/beam/eight_nodes.h"

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

// Eight runs' least and greatest.
[[gnu::always_inline]] inline void set_runs(const float* of, float* least, float* most) {
  std::array<Floats, kWide> runs;
  for (std::size_t k = 0; k < kWide; ++k) load(of + k * kWide, runs[k]);
  Floats lo, hi;
  pick_of_each<Lesser>(runs, lo);
  pick_of_each<Greater>(runs, hi);
  std::memcpy(least, &lo, sizeof lo);
  std::memcpy(most, &hi, sizeof hi);
}

// A tile's nodes in shadow coordinates, that of `off` being (x, y).
struct Shift {
  float x, y, up, run_x, run_y;
};
// One run from the kth node on; x and y may be those of other nodes that stand alike.
[[gnu::always_inline]] inline void place_run(const Floats& x, const Floats& y, const float* up,
                                             const Shift& s, std::size_t k, ShadowNodes& n) {
  Floats z;
  load(up + k, z);
  const Floats qx = s.x + (x - z * s.run_x), qy = s.y + (y - z * s.run_y), high = s.up + z;
  std::memcpy(&n.qx[k], &qx, sizeof qx);
  std::memcpy(&n.qy[k], &qy, sizeof qy);
  std::memcpy(&n.z[k], &high, sizeof high);
}
HUMMOCK_WIDE
void place_nodes(const Tile& tile, const Shift& s, ShadowNodes& n) {
  // An even tile's x and y are not fetched node by node: the tiles of a yard fill no cache.
  for (std::size_t k = 0; k < kTileNodes; k += kWide) {
    Floats x, y;
    load(&tile.x[tile.even ? k % kTile : k], x);
    if (tile.even)
      y = Floats{} + tile.y[k / kTile * kTile];
    else
      load(&tile.y[k], y);
    place_run(x, y, tile.z.data(), s, k, n);
  }
  for (std::size_t run = 0; run < ShadowNodes::kRuns; run += kWide) {
    set_runs(&n.qx[run * kWide], &n.run_x0[run], &n.run_x1[run]);
    set_runs(&n.qy[run * kWide], &n.run_y0[run], &n.run_y1[run]);
  }
}

}  // namespace

void shadow_nodes(const Tile& tile, const SunRay& sun, Vec3 ref, ShadowNodes& n) {
  const Vec3 off = tile.ref - ref;
  place_nodes(
      tile,
      {static_cast<float>(off.x - off.z * sun.run.x), static_cast<float>(off.y - off.z * sun.run.y),
       static_cast<float>(off.z), static_cast<float>(sun.run.x), static_cast<float>(sun.run.y)},
      n);
  n.z_top = static_cast<float>(tile.box.hi.z - ref.z);
  n.x0 = *std::min_element(n.run_x0.begin(), n.run_x0.end());
  n.x1 = *std::max_element(n.run_x1.begin(), n.run_x1.end());
  n.y0 = *std::min_element(n.run_y0.begin(), n.run_y0.end());
  n.y1 = *std::max_element(n.run_y1.begin(), n.run_y1.end());
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
  for_set(runs_meeting(n, t), [&](std::size_t run) {
    const std::size_t k = run * kWide;
    Under u;
    judge(t, &n.qx[k], &n.qy[k], &n.z[k], u);
    Floats o;
    load(out + k, o);
    o += u.under ? sign * u.above : Floats{};
    std::memcpy(out + k, &o, sizeof o);
  });
}

}  // namespace hummock::shade
