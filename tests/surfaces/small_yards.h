// Yards with surfaces and plantings, for these tests.
#pragma once

#include <string>

#include "engine/surfaces/surfaces.h"
#include "tests/support/yard.h"

namespace hummock::test {

inline Polygon rectangle(Vec2 lo, Vec2 hi) {
  return {lo, {hi.x, lo.y}, hi, {lo.x, hi.y}};
}

inline Surfacing& add_surface(Site& site, Material material, Polygon outline,
                              std::optional<double> depth = {}) {
  Surfacing s;
  s.name = "surface " + std::to_string(site.surfaces.size() + 1);
  s.material = material;
  s.outline = std::move(outline);
  s.depth = depth;
  return site.surfaces.emplace_back(s);
}

inline Planting& add_planting(Site& site, Polygon outline, double height, double cover) {
  Planting p;
  p.name = "planting " + std::to_string(site.plantings.size() + 1);
  p.outline = std::move(outline);
  p.height = height;
  p.cover = cover;
  return site.plantings.emplace_back(p);
}

inline const surfaces::MaterialRow& row_of(const surfaces::Result& r, Material m) {
  return r.materials[static_cast<std::size_t>(m)];
}

}  // namespace hummock::test
