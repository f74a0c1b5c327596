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
      along2_(dot(along_, along_)),
      across_x_(across(per_x_)),
      across_y_(across(per_y_)),
      across_z_(across(per_z_)),
      nearest_{-dot(per_x_, along_) / along2_, -dot(per_y_, along_) / along2_,
               -dot(per_z_, along_) / along2_},
      hull_(body.kind() == geom::RoundKind::ellipsoid ? 1.0 : std::sqrt(2.0)),
      run_(sun.run) {
  set_outline();
}

// What of a vector lies across the line.
Vec3 RoundShade::across(Vec3 v) const {
  return v - along_ * (dot(v, along_) / along2_);
}

// What of a vector lies across the line is the same for all points on it, so of a point it is that
// of `ref` and of its shadow coordinates' metres east and north: a quadratic form of the two, here
// by its Cholesky factor.
void RoundShade::set_outline() {
  const Vec3 u = across_x_, v = across_y_, m = across(from_);
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

[[gnu::always_inline]] inline void root(Floats& v) {
  std::array<float, kWide> each;
  std::memcpy(each.data(), &v, sizeof v);
  for (float& x : each) x = std::sqrt(x);
  load(each.data(), v);
}

// Adds the chords of a run of nodes whose values of `ball` are those given, `high` their heights.
[[gnu::always_inline]] inline void add_chord(const Ball& ball, const std::array<Floats, 4>& level,
                                             const Floats& high, float* depth) {
  const Floats a = level[0] + ball.across_x.z * high, b = level[1] + ball.across_y.z * high,
               c = level[2] + ball.across_z.z * high, middle = level[3] + ball.nearest.z * high;
  Floats left = 1.0F - (a * a + b * b + c * c);
  left = left > 0.0F ? left : Floats{};
  Floats half = left * ball.per_metre;
  root(half);
  const Floats in = middle - half, out = middle + half;
  Floats chord = out - (in > 0.0F ? in : Floats{});
  chord = chord > 0.0F && left > 0.0F ? chord : Floats{};
  Floats d;
  load(depth, d);
  d += ball.extinction * chord;
  std::memcpy(depth, &d, sizeof d);
}

HUMMOCK_WIDE
void add_chords(const Tile& tile, const Ball& ball, std::uint32_t runs, float* depth) {
  const std::array<const Linear*, 4> of{&ball.across_x, &ball.across_y, &ball.across_z,
                                        &ball.nearest};
  for (; runs != 0; runs &= runs - 1) {
    const std::size_t k = static_cast<std::size_t>(std::countr_zero(runs)) * kWide;
    Floats x, y, z;
    load(&tile.x[k], x);
    load(&tile.y[k], y);
    load(&tile.z[k], z);
    std::array<Floats, 4> level;
    for (std::size_t m = 0; m < of.size(); ++m) level[m] = of[m]->o + of[m]->x * x + of[m]->y * y;
    add_chord(ball, level, z, depth + k);
  }
}

// The same bits where x is the same in each row and y along each: what x gives is summed once for
// all rows, what y gives once a row.
HUMMOCK_WIDE
void add_chords_evenly(const Tile& tile, const Ball& ball, std::uint32_t runs, float* depth) {
  static_assert(kTile == 2 * kWide);
  const std::array<const Linear*, 4> of{&ball.across_x, &ball.across_y, &ball.across_z,
                                        &ball.nearest};
  std::array<std::array<Floats, 4>, 2> column;
  for (std::size_t h = 0; h < column.size(); ++h) {
    Floats x;
    load(&tile.x[h * kWide], x);
    for (std::size_t m = 0; m < of.size(); ++m) column[h][m] = of[m]->o + of[m]->x * x;
  }
  for (; runs != 0; runs &= runs - 1) {
    const auto run = static_cast<std::size_t>(std::countr_zero(runs));
    const float y = tile.row_y[run / 2];
    Floats z;
    load(&tile.z[run * kWide], z);
    std::array<Floats, 4> level;
    for (std::size_t m = 0; m < of.size(); ++m) level[m] = column[run % 2][m] + of[m]->y * y;
    add_chord(ball, level, z, depth + run * kWide);
  }
}

}  // namespace

// With p the node and d a metre of the line in the ball's coordinates, m = p − d (p·d)/(d·d) is
// where the line is nearest the middle, at t = −(p·d)/(d·d); half the chord is √((1 − m·m)/(d·d)).
void RoundShade::deepen_ball(const Tile& tile, std::uint32_t runs, float extinction,
                             float* depth) const {
  const Vec3 off = tile.ref - ref_;
  const Vec3 from = from_ + per_x_ * off.x + per_y_ * off.y + per_z_ * off.z;
  const Vec3 m0 = across(from);
  const Vec3 &mx = across_x_, &my = across_y_, &mz = across_z_;
  const auto linear = [](double o, double x, double y, double z) {
    return Linear{static_cast<float>(o), static_cast<float>(x), static_cast<float>(y),
                  static_cast<float>(z)};
  };
  const Ball ball{linear(m0.x, mx.x, my.x, mz.x),
                  linear(m0.y, mx.y, my.y, mz.y),
                  linear(m0.z, mx.z, my.z, mz.z),
                  linear(-dot(from, along_) / along2_, nearest_.x, nearest_.y, nearest_.z),
                  static_cast<float>(1.0 / along2_),
                  extinction};
  tile.even ? add_chords_evenly(tile, ball, runs, depth) : add_chords(tile, ball, runs, depth);
}

}  // namespace hummock::shade
