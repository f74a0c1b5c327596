#include "engine/model/shapes/boulder.h"

#include <cmath>

#include "engine/model/shapes/solids.h"

namespace hummock {
namespace {

using geom::Vec3;

// Mixes a lattice point and the seed; the finaliser of MurmurHash3 (A. Appleby, public domain).
std::uint32_t hashed(std::int32_t x, std::int32_t y, std::int32_t z, std::uint32_t seed) {
  std::uint32_t h = seed * 0x9E3779B9U;
  for (std::int32_t c : {x, y, z}) {
    h ^= static_cast<std::uint32_t>(c) + 0x9E3779B9U + (h << 6U) + (h >> 2U);
    h ^= h >> 16U;
    h *= 0x85EBCA6BU;
    h ^= h >> 13U;
    h *= 0xC2B2AE35U;
    h ^= h >> 16U;
  }
  return h;
}

// -1..1
double lattice(std::int32_t x, std::int32_t y, std::int32_t z, std::uint32_t seed) {
  return static_cast<double>(hashed(x, y, z, seed)) / 2147483647.5 - 1.0;
}

double eased(double t) {
  return t * t * (3.0 - 2.0 * t);
}

// Value noise: lattice values blended smoothly; -1..1.
double noise(Vec3 p, std::uint32_t seed) {
  const double fx = std::floor(p.x);
  const double fy = std::floor(p.y);
  const double fz = std::floor(p.z);
  const auto i = static_cast<std::int32_t>(fx);
  const auto j = static_cast<std::int32_t>(fy);
  const auto k = static_cast<std::int32_t>(fz);
  const double u = eased(p.x - fx);
  const double v = eased(p.y - fy);
  const double w = eased(p.z - fz);
  double sum = 0.0;
  for (std::int32_t c = 0; c < 8; ++c) {
    const std::int32_t a = c & 1;
    const std::int32_t b = (c >> 1) & 1;
    const std::int32_t d = c >> 2;
    const double weight = (a != 0 ? u : 1.0 - u) * (b != 0 ? v : 1.0 - v) * (d != 0 ? w : 1.0 - w);
    sum += weight * lattice(i + a, j + b, k + d, seed);
  }
  return sum;
}

double radius_at(Vec3 direction, std::uint32_t seed) {
  return 1.0 + 0.30 * noise(direction * 1.3, seed) + 0.12 * noise(direction * 2.9, seed + 101U) +
         0.05 * noise(direction * 6.1, seed + 211U);
}

}  // namespace

geom::Mesh boulder_stone(std::uint32_t seed, Vec3 size) {
  geom::Mesh stone = icosphere(3);
  for (Vec3& v : stone.vertices) {
    v = v * radius_at(v, seed);
    if (v.z < 0.0) v.z *= 0.6;  // it lies on its flatter side
  }
  const geom::Box3 box = geom::bounds(stone);
  const Vec3 wide = box.hi - box.lo;
  for (Vec3& v : stone.vertices) {
    v = {size.x * ((v.x - box.lo.x) / wide.x - 0.5), size.y * ((v.y - box.lo.y) / wide.y - 0.5),
         size.z * ((v.z - box.lo.z) / wide.z)};
  }
  return stone;
}

}  // namespace hummock
