// Small convex polygons in plan and functions linear on them. Internal to geometry.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/plan/clip.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// Each cut of a convex polygon by a line adds at most one corner; the deepest chain of cuts here is
// a triangle by a triangle (3), a cell's sides and diagonal (5) and two heights (2).
struct Convex {
  static constexpr int kMost = 16;
  std::array<Vec2, kMost> p{};
  int n = 0;
  void add(Vec2 v) {
    if (n < kMost) p[static_cast<std::size_t>(n++)] = v;
  }
  Vec2 operator[](int k) const { return p[static_cast<std::size_t>(k)]; }
  // As clip.h asks of a shape.
  Vec2 operator[](std::size_t k) const { return p[k]; }
  std::size_t size() const { return static_cast<std::size_t>(n); }
  void push_back(Vec2 v) { add(v); }
  void clear() { n = 0; }
};

// f(p) = value + g·(p − at).
struct Linear {
  Vec2 at;
  double value = 0.0;
  Vec2 g;
  double operator()(Vec2 p) const { return value + g.x * (p.x - at.x) + g.y * (p.y - at.y); }
};

inline Linear operator-(const Linear& a, const Linear& b) {
  return {a.at, a.value - b(a.at), a.g - b.g};
}

// The plane through three points that do not stand upright.
inline Linear plane_through(Vec3 a, Vec3 b, Vec3 c) {
  const Vec3 n = cross(b - a, c - a);
  return {xy(a), a.z, {-n.x / n.z, -n.y / n.z}};
}

inline double area(const Convex& c) {
  double twice = 0.0;
  for (int k = 1; k + 1 < c.n; ++k) twice += cross(c[k] - c[0], c[k + 1] - c[0]);
  return 0.5 * twice;
}

inline double integral(const Convex& c, const Linear& f) {
  double six = 0.0;
  for (int k = 1; k + 1 < c.n; ++k)
    six += cross(c[k] - c[0], c[k + 1] - c[0]) * (f(c[0]) + f(c[k]) + f(c[k + 1]));
  return six / 6.0;
}

// The plan view of a triangle, counter-clockwise; n = 0 when it stands upright. `up`: +1 when it
// looks up, −1 down.
struct PlanTriangle {
  std::array<Vec2, 3> corners{};
  Convex convex;
  Linear height;
  int up = 0;
};

inline PlanTriangle plan_of(Vec3 a, Vec3 b, Vec3 c) {
  PlanTriangle out;
  const double twice = cross(xy(b) - xy(a), xy(c) - xy(a));
  if (twice == 0.0) return out;
  out.up = twice > 0.0 ? 1 : -1;
  out.height = plane_through(a, b, c);
  if (twice < 0.0) std::swap(b, c);
  out.corners = {xy(a), xy(b), xy(c)};
  for (const Vec2 p : out.corners) out.convex.add(p);
  return out;
}

// Where the horizontal line at `y` meets the convex polygon: x from..to; from > to when it does
// not.
struct Chord {
  double from = 1e300;
  double to = -1e300;
};
inline Chord chord(const Convex& c, double y) {
  Chord out;
  for (int k = 0; k < c.n; ++k) {
    const Vec2 p = c[k];
    const Vec2 q = c[(k + 1) % c.n];
    if ((p.y < y && q.y < y) || (p.y > y && q.y > y)) continue;
    const double x = p.y == q.y ? p.x : p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y);
    out.from = std::min(out.from, x);
    out.to = std::max(out.to, x);
    if (p.y == q.y) {
      out.from = std::min(out.from, q.x);
      out.to = std::max(out.to, q.x);
    }
  }
  return out;
}

// visit(piece, ground height on it) for the overlay of a convex polygon with the ground's
// triangles.
template <class Visit>
void overlay_with_ground(const Heightfield& ground, const Convex& polygon, const Visit& visit) {
  if (polygon.n < 3) return;
  const Grid& g = ground.grid;
  Box2 box;
  for (int k = 0; k < polygon.n; ++k) box.add(polygon[k]);
  const auto cell_of = [&](double v, double v0, int cells) {
    return static_cast<int>(std::clamp(std::floor((v - v0) / g.cell), 0.0, cells - 1.0));
  };
  const auto halves = [&](int i, int j, const Convex& piece, bool whole) {
    const double za = ground.at(i, j), zb = ground.at(i + 1, j);
    const double zc = ground.at(i + 1, j + 1), zd = ground.at(i, j + 1);
    const Vec2 a = g.node(i, j), b = g.node(i + 1, j), c = g.node(i + 1, j + 1);
    const Vec2 d = g.node(i, j + 1);
    const double s = 1.0 / g.cell;
    const Linear lower{a, za, {(zb - za) * s, (zd - za) * s}};
    const Linear upper{c, zc, {(zc - zd) * s, (zc - zb) * s}};
    if (whole) {
      visit(Convex{{a, b, d}, 3}, lower);
      visit(Convex{{c, d, b}, 3}, upper);
      return;
    }
    const Convex low = clip_to_left(piece, b, d);
    if (low.n >= 3) visit(low, lower);
    const Convex high = clip_to_left(piece, d, b);
    if (high.n >= 3) visit(high, upper);
  };
  const int j_first = cell_of(box.lo.y, g.y0, g.ny - 1);
  const int j_last = cell_of(box.hi.y, g.y0, g.ny - 1);
  for (int j = j_first; j <= j_last; ++j) {
    const double y0 = g.y0 + j * g.cell;
    const double y1 = g.y0 + (j + 1) * g.cell;
    Convex strip = clip_to(polygon, [&](Vec2 p) { return p.y - y0; });
    strip = clip_to(strip, [&](Vec2 p) { return y1 - p.y; });
    if (strip.n < 3) continue;
    const Chord low = chord(polygon, y0);
    const Chord high = chord(polygon, y1);
    Box2 reach;
    for (int k = 0; k < strip.n; ++k) reach.add(strip[k]);
    const int i_first = cell_of(reach.lo.x, g.x0, g.nx - 1);
    const int i_last = cell_of(reach.hi.x, g.x0, g.nx - 1);
    for (int i = i_first; i <= i_last; ++i) {
      const double x0 = g.x0 + i * g.cell;
      const double x1 = g.x0 + (i + 1) * g.cell;
      const bool whole = low.from <= x0 && high.from <= x0 && low.to >= x1 && high.to >= x1;
      if (whole) {
        halves(i, j, strip, true);
        continue;
      }
      Convex piece = clip_to(strip, [&](Vec2 p) { return p.x - x0; });
      piece = clip_to(piece, [&](Vec2 p) { return x1 - p.x; });
      if (piece.n >= 3) halves(i, j, piece, false);
    }
  }
}

}  // namespace hummock::geom
