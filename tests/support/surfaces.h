// Grounds for tests: a surface from a function, the volcano of tests/data, and a bare model.
#pragma once

#include <cmath>

#include "engine/model/model.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::tests {

// Nodes at lo + k·cell until hi is reached, z = f(x, y).
template <class Height>
geom::Heightfield surface(geom::Vec2 lo, geom::Vec2 hi, double cell, Height f) {
  geom::Heightfield ground = geom::level_ground({lo, hi}, cell, 0.0);
  for (int j = 0; j < ground.grid.ny; ++j)
    for (int i = 0; i < ground.grid.nx; ++i) {
      const geom::Vec2 p = ground.grid.node(i, j);
      ground.at(i, j) = f(p.x, p.y);
    }
  return ground;
}

// tests/data/volcano.json: 87 × 61 nodes, 10 m, the file's first row northernmost.
geom::Heightfield volcano();

// A model with nothing but ground and outline.
inline Model bare_model(geom::Heightfield ground, geom::Polygon outline) {
  Model model;
  model.surveyed = ground;
  model.ground = std::move(ground);
  model.outline = std::move(outline);
  for (std::size_t k = 0; k < model.outline.size(); ++k)
    model.edge_of.push_back(static_cast<int>(k));
  return model;
}

inline geom::Polygon rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

inline geom::Polygon regular_polygon(geom::Vec2 centre, double radius, int corners) {
  geom::Polygon out;
  for (int k = 0; k < corners; ++k) {
    const double a = 2.0 * geom::kPi * k / corners;
    out.push_back(centre + geom::Vec2{std::cos(a), std::sin(a)} * radius);
  }
  return out;
}

}  // namespace hummock::tests
