#include "engine/shade/beam/round_shade.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>

#include "engine/shade/beam/eight_nodes.h"

namespace hummock::shade {
namespace {

// The unit body's height goes from 0 to 1; about its middle it goes from −1 to 1.
Vec3 about_middle(Vec3 v) {
  return {v.x, v.y, 2.0 * v.z};
}

// float32 is good to less than this of a radius, however far the line goes before it meets the
// body: what goes across is small there (deepen_ball).
constexpr double kSpare = 0.01;

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
      hull_(body.kind() == geom::RoundKind::ellipsoid ? 1.0 : std::sqrt(2.0)),
      run_(sun.run) {
  set_outline();
}

// What of a vector lies across the line is the same for all points on it, so of a point it is that
// of `ref` and of its shadow coordinates' metres east and north: a quadratic form of the two, here
// by its Cholesky factor.
void RoundShade::set_outline() {
  const auto across = [&](Vec3 v) { return v - along_ * (dot(v, along_) / dot(along_, along_)); };
  const Vec3 u = across(per_x_), v = across(per_y_), m = across(from_);
  Outline& o = outline_;
  o.xx = length(u);
  o.xy = dot(u, v) / o.xx;
  const Vec3 left = v - u * (o.xy / o.xx);
  o.yy = length(left);
  o.y = -dot(left, m) / (o.yy * o.yy);
  o.x = (-dot(u, m) / o.xx - o.xy * o.y) / o.xx;
  around_ = {static_cast<float>(o.x),           static_cast<float>(o.y),
             static_cast<float>(o.xx),          static_cast<float>(o.xy),
             static_cast<float>(o.yy),          static_cast<float>(length(v)),
             static_cast<float>(hull_ + kSpare)};
}

namespace {

using Around = RoundShade::Around;
HUMMOCK_WIDE
std::uint32_t runs_around(const ShadowNodes& n, const Around& o) {
  constexpr float kRounds = 1e-5F;  // of each product; eight times float32's rounding, and more
  std::uint32_t runs = 0;
  for (std::size_t r = 0; r < ShadowNodes::kRuns; r += kWide) {
    RunBoxes box;
    load_runs(n, r, box);
    const Floats dx = 0.5F * (box.x0 + box.x1) - o.x, dy = 0.5F * (box.y0 + box.y1) - o.y;
    const Floats a = o.xx * dx, b = o.xy * dy, c = o.yy * dy;
    const Floats size = (a < 0.0F ? -a : a) + (b < 0.0F ? -b : b) + (c < 0.0F ? -c : c);
    const Floats reach =
        o.hull + 0.5F * (o.xx * (box.x1 - box.x0) + o.reach_y * (box.y1 - box.y0)) + kRounds * size;
    const Flags meet = (a + b) * (a + b) + c * c <= reach * reach;
    runs |= bits_of(meet) << r;
  }
  return runs;
}

}  // namespace

std::uint32_t RoundShade::runs(const ShadowNodes& nodes) const {
  return runs_around(nodes, around_);
}

// The ellipse's half width along a level axis is the length of the axis by the factor's inverse,
// turned.
ShadowBox RoundShade::box() const {
  const Outline& o = outline_;
  const auto half = [&](Vec2 axis) {
    const double first = axis.x / o.xx;
    return (hull_ + kSpare) * length(Vec2{first, (axis.y - o.xy * first) / o.yy});
  };
  ShadowBox b;
  const auto set = [](double middle, double wide, float& lo, float& hi) {
    const double sure = 1e-5 * std::abs(middle) + 1e-3;
    lo = static_cast<float>(middle - wide - sure);
    hi = static_cast<float>(middle + wide + sure);
  };
  set(o.x, half({1, 0}), b.x0, b.x1);
  set(o.y, half({0, 1}), b.y0, b.y1);
  const Vec2 along = unit(run_), across{-along.y, along.x};
  set(across.x * o.x + across.y * o.y, half(across), b.across0, b.across1);
  return b;
}

void RoundShade::deepen(const Tile& tile, std::uint32_t runs, float extinction,
                        float* depth) const {
  if (body_->kind() == geom::RoundKind::ellipsoid)
    return deepen_ball(tile, runs, extinction, depth);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0 || (runs >> k / ShadowNodes::kRun & 1U) == 0) continue;
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
  const __m128 low = _mm_sqrt_ps(__builtin_shufflevector(v, v, 0, 1, 2, 3));
  const __m128 high = _mm_sqrt_ps(__builtin_shufflevector(v, v, 4, 5, 6, 7));
  v = __builtin_shufflevector(low, high, 0, 1, 2, 3, 4, 5, 6, 7);
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
void add_chords(const Tile& tile, const Ball& ball, std::uint32_t runs, float* depth) {
  for (; runs != 0; runs &= runs - 1) {
    const std::size_t k = static_cast<std::size_t>(std::countr_zero(runs)) * kWide;
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
void RoundShade::deepen_ball(const Tile& tile, std::uint32_t runs, float extinction,
                             float* depth) const {
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
             runs, depth);
}

}  // namespace hummock::shade
