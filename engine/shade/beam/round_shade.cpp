#include "engine/shade/beam/round_shade.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#if defined(__SSE__) && defined(__x86_64__)
#include <xmmintrin.h>
#endif

#include "engine/shade/beam/eight_floats.h"

namespace hummock::shade {
namespace {

// The unit body's height goes from 0 to 1; about its middle it goes from −1 to 1.
Vec3 about_middle(Vec3 v) {
  return {v.x, v.y, 2.0 * v.z};
}

}  // namespace

RoundShade::RoundShade(const geom::RoundBody& body, const SunRay& sun, Vec3 ref)
    : body_(&body),
      ref_(ref),
      towards_(sun.towards),
      from_(about_middle(body.into(ref)) - Vec3{0, 0, 1}),
      along_(about_middle(body.turned(sun.towards))),
      per_x_(about_middle(body.turned({1, 0, 0}))),
      per_y_(about_middle(body.turned({0, 1, 0}))),
      per_z_(about_middle(body.turned({0, 0, 1}))),
      hull_(body.kind() == geom::RoundKind::ellipsoid ? 1.0 : std::sqrt(2.0)) {}

bool RoundShade::may_meet(const Tile& tile) const {
  const Vec3 half = (tile.box.hi - tile.box.lo) * 0.5;
  const Vec3 off = (tile.box.lo + tile.box.hi) * 0.5 - ref_;
  const Vec3 middle = from_ + per_x_ * off.x + per_y_ * off.y + per_z_ * off.z;
  const auto across = [&](Vec3 v) { return v - along_ * (dot(v, along_) / dot(along_, along_)); };
  const double reach = length(across(per_x_)) * half.x + length(across(per_y_)) * half.y +
                       length(across(per_z_)) * half.z;
  if (length(across(middle)) > hull_ + reach + 1e-6) return false;
  // All of it behind: farther back along the line than the hull is wide.
  const double back = -dot(middle, along_) / length(along_);
  const double slack = length(per_x_) * half.x + length(per_y_) * half.y + length(per_z_) * half.z;
  return back > -(hull_ + slack + 1e-6);
}

void RoundShade::deepen(const Tile& tile, float extinction, float* depth) const {
  if (body_->kind() == geom::RoundKind::ellipsoid) return deepen_ball(tile, extinction, depth);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0) continue;
    const Vec3 from = tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]};
    const double chord = body_->length_ahead(from, towards_);
    if (chord > 0.0) depth[k] += static_cast<float>(extinction * chord);
  }
}

namespace {

// A value o + x·dx + y·dy + z·dz over a tile.
struct Linear {
  float o, x, y, z;
};
struct Ball {
  Linear across_x, across_y, across_z;  // from the middle to where the line is nearest
  Linear nearest;                       // metres along the line to there
  float per_metre, extinction;          // (lengths of the line)² a radius; 1/m
};

#if defined(__SSE__) && defined(__x86_64__)
[[gnu::always_inline]] inline void root(Floats& v) {
  alignas(32) std::array<float, kWide> each;
  std::memcpy(each.data(), &v, sizeof v);
  for (std::size_t k = 0; k < kWide; k += 4)
    _mm_store_ps(&each[k], _mm_sqrt_ps(_mm_load_ps(&each[k])));
  std::memcpy(&v, each.data(), sizeof v);
}
#else
inline void root(Floats& v) {
  for (std::size_t k = 0; k < kWide; ++k) v[k] = std::sqrt(v[k]);
}
#endif

[[gnu::always_inline]] inline void value_of(const Linear& l, const Floats& x, const Floats& y,
                                            const Floats& z, Floats& v) {
  v = l.o + l.x * x + l.y * y + l.z * z;
}

HUMMOCK_WIDE
void add_chords(const Tile& tile, const Ball& ball, float* depth) {
  for (std::size_t k = 0; k < kTileNodes; k += kWide) {
    Floats x, y, z, a, b, c, d;
    load(&tile.x[k], x);
    load(&tile.y[k], y);
    load(&tile.z[k], z);
    value_of(ball.across_x, x, y, z, a);
    value_of(ball.across_y, x, y, z, b);
    value_of(ball.across_z, x, y, z, c);
    Floats left = 1.0F - (a * a + b * b + c * c);
    left = left > 0.0F ? left : Floats{};
    Floats half = left * ball.per_metre;
    root(half);
    Floats middle;
    value_of(ball.nearest, x, y, z, middle);
    const Floats in = middle - half, out = middle + half;
    Floats chord = out - (in > 0.0F ? in : Floats{});
    chord = chord > 0.0F && left > 0.0F ? chord : Floats{};
    load(depth + k, d);
    d += ball.extinction * chord;
    std::memcpy(depth + k, &d, sizeof d);
  }
}

}  // namespace

// With p the node and d a metre of the line in the ball's coordinates, m = p − d (p·d)/(d·d) is
// where the line is nearest the middle, at t = −(p·d)/(d·d); half the chord is √((1 − m·m)/(d·d)).
void RoundShade::deepen_ball(const Tile& tile, float extinction, float* depth) const {
  const double dd = dot(along_, along_);
  const Vec3 off = tile.ref - ref_;
  const Vec3 from = from_ + per_x_ * off.x + per_y_ * off.y + per_z_ * off.z;
  const auto across = [&](Vec3 v) { return v - along_ * (dot(v, along_) / dd); };
  const Vec3 m0 = across(from), mx = across(per_x_), my = across(per_y_), mz = across(per_z_);
  const auto linear = [](double o, double x, double y, double z) {
    return Linear{static_cast<float>(o), static_cast<float>(x), static_cast<float>(y),
                  static_cast<float>(z)};
  };
  add_chords(tile,
             {linear(m0.x, mx.x, my.x, mz.x), linear(m0.y, mx.y, my.y, mz.y),
              linear(m0.z, mx.z, my.z, mz.z),
              linear(-dot(from, along_) / dd, -dot(per_x_, along_) / dd, -dot(per_y_, along_) / dd,
                     -dot(per_z_, along_) / dd),
              static_cast<float>(1.0 / dd), extinction},
             depth);
}

}  // namespace hummock::shade
