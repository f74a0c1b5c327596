#include "engine/shade/beam/round_shade.h"

#include <algorithm>
#include <cmath>

namespace hummock::shade {
namespace {

// The unit body's height goes from 0 to 1; about its middle it goes from −1 to 1.
Vec3 about_middle(Vec3 v) {
  return {v.x, v.y, 2.0 * v.z};
}

}  // namespace

RoundShade::RoundShade(const geom::RoundBody& body, const SunRay& sun, Vec3 ref)
    : body_(body),
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

void RoundShade::darken(const Tile& tile, float extinction, float* beam) const {
  if (body_.kind() == geom::RoundKind::ellipsoid) return darken_ball(tile, extinction, beam);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0 || beam[k] <= 0.0F) continue;
    const Vec3 from = ref_ + Vec3{tile.x[k], tile.y[k], tile.z[k]};
    const double chord = body_.length_ahead(from, towards_);
    if (chord > 0.0) beam[k] *= static_cast<float>(std::exp(-extinction * chord));
  }
}

// With p the node and d a metre of the line in the ball's coordinates, m = p − d (p·d)/(d·d) is
// where the line is nearest the middle, at t = −(p·d)/(d·d); half the chord is √((1 − m·m)/(d·d)).
void RoundShade::darken_ball(const Tile& tile, float extinction, float* beam) const {
  const double dd = dot(along_, along_);
  const auto across = [&](Vec3 v) { return v - along_ * (dot(v, along_) / dd); };
  struct Row {
    float o, x, y, z;
  };
  const Vec3 m0 = across(from_), mx = across(per_x_), my = across(per_y_), mz = across(per_z_);
  const auto row = [](double o, double x, double y, double z) {
    return Row{static_cast<float>(o), static_cast<float>(x), static_cast<float>(y),
               static_cast<float>(z)};
  };
  const Row rx = row(m0.x, mx.x, my.x, mz.x), ry = row(m0.y, mx.y, my.y, mz.y),
            rz = row(m0.z, mx.z, my.z, mz.z);
  alignas(32) std::array<float, kTileNodes> left;  // 1 − m·m
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const float x = tile.x[k], y = tile.y[k], z = tile.z[k];
    const float a = rx.o + rx.x * x + rx.y * y + rx.z * z;
    const float b = ry.o + ry.x * x + ry.y * y + ry.z * z;
    const float c = rz.o + rz.x * x + rz.y * y + rz.z * z;
    left[k] = 1.0F - (a * a + b * b + c * c);
  }
  const Row rt = row(-dot(from_, along_) / dd, -dot(per_x_, along_) / dd, -dot(per_y_, along_) / dd,
                     -dot(per_z_, along_) / dd);
  const auto per_metre = static_cast<float>(1.0 / dd);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (left[k] <= 0.0F || beam[k] <= 0.0F) continue;
    const float half = std::sqrt(left[k] * per_metre);
    const float middle = rt.o + rt.x * tile.x[k] + rt.y * tile.y[k] + rt.z * tile.z[k];
    const float chord = middle + half - std::max(0.0F, middle - half);
    if (chord > 0.0F) beam[k] *= std::exp(-extinction * chord);
  }
}

}  // namespace hummock::shade
