// Points and vectors in two and three dimensions.
//
// The one vector type of the project. Axes everywhere: x east, y north, z up, metres.
// Plain data, no invariants; a default-constructed vector is zero.
#pragma once

#include <algorithm>
#include <cmath>

namespace hummock::geom {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kDegree = kPi / 180.0;  // radians in one degree

struct Vec2 {
  double x = 0.0;
  double y = 0.0;
  friend bool operator==(const Vec2&, const Vec2&) = default;
};

struct Vec3 {
  double x = 0.0;
  double y = 0.0;
  double z = 0.0;
  friend bool operator==(const Vec3&, const Vec3&) = default;
};

constexpr Vec2 operator+(Vec2 a, Vec2 b) {
  return {a.x + b.x, a.y + b.y};
}
constexpr Vec2 operator-(Vec2 a, Vec2 b) {
  return {a.x - b.x, a.y - b.y};
}
constexpr Vec2 operator-(Vec2 a) {
  return {-a.x, -a.y};
}
constexpr Vec2 operator*(Vec2 a, double s) {
  return {a.x * s, a.y * s};
}
constexpr Vec2 operator*(double s, Vec2 a) {
  return {a.x * s, a.y * s};
}
constexpr double dot(Vec2 a, Vec2 b) {
  return a.x * b.x + a.y * b.y;
}
// z component of the cross product; positive when b is to the left of a.
constexpr double cross(Vec2 a, Vec2 b) {
  return a.x * b.y - a.y * b.x;
}
inline double length(Vec2 a) {
  return std::hypot(a.x, a.y);
}
inline double distance(Vec2 a, Vec2 b) {
  return length(b - a);
}
// Unit vector; the zero vector stays zero.
inline Vec2 unit(Vec2 a) {
  const double l = length(a);
  return l > 0.0 ? a * (1.0 / l) : a;
}
constexpr Vec2 left_of(Vec2 a) {
  return {-a.y, a.x};
}  // turned 90° counter-clockwise
constexpr Vec2 lerp(Vec2 a, Vec2 b, double t) {
  return a + (b - a) * t;
}

constexpr Vec3 operator+(Vec3 a, Vec3 b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
constexpr Vec3 operator-(Vec3 a, Vec3 b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
constexpr Vec3 operator-(Vec3 a) {
  return {-a.x, -a.y, -a.z};
}
constexpr Vec3 operator*(Vec3 a, double s) {
  return {a.x * s, a.y * s, a.z * s};
}
constexpr Vec3 operator*(double s, Vec3 a) {
  return a * s;
}
constexpr double dot(Vec3 a, Vec3 b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(Vec3 a) {
  return std::sqrt(dot(a, a));
}
inline double distance(Vec3 a, Vec3 b) {
  return length(b - a);
}
inline Vec3 unit(Vec3 a) {
  const double l = length(a);
  return l > 0.0 ? a * (1.0 / l) : a;
}
constexpr Vec3 lerp(Vec3 a, Vec3 b, double t) {
  return a + (b - a) * t;
}
constexpr Vec2 xy(Vec3 a) {
  return {a.x, a.y};
}
constexpr Vec3 at_height(Vec2 a, double z) {
  return {a.x, a.y, z};
}

// Axis-aligned box. Empty (lo > hi) until something is added.
struct Box3 {
  Vec3 lo{1e300, 1e300, 1e300};
  Vec3 hi{-1e300, -1e300, -1e300};
  bool empty() const { return lo.x > hi.x; }
  void add(Vec3 p) {
    lo = {std::min(lo.x, p.x), std::min(lo.y, p.y), std::min(lo.z, p.z)};
    hi = {std::max(hi.x, p.x), std::max(hi.y, p.y), std::max(hi.z, p.z)};
  }
  void add(const Box3& b) {
    if (!b.empty()) {
      add(b.lo);
      add(b.hi);
    }
  }
  Vec3 centre() const { return (lo + hi) * 0.5; }
};

struct Box2 {
  Vec2 lo{1e300, 1e300};
  Vec2 hi{-1e300, -1e300};
  bool empty() const { return lo.x > hi.x; }
  void add(Vec2 p) {
    lo = {std::min(lo.x, p.x), std::min(lo.y, p.y)};
    hi = {std::max(hi.x, p.x), std::max(hi.y, p.y)};
  }
};

}  // namespace hummock::geom
