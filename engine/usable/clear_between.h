// Does something thin stand between two neighbouring nodes, where neither is in it? And does
// anything lie over the ground at all?
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::usable {

// No: by level rays from p to q over the ground at four heights up to `height` (m). Bars and rails
// between those heights are not seen, nor is anything in a model without a scene.
bool clear_between(const Model& model, Vec2 p, Vec2 q, double height);

// 1 for nodes within a cell of the box about a thing that blocks a body, which may stand between
// two of them.
std::vector<std::uint8_t> beside_things(const Model& model, const geom::Grid& grid);

// 0 for nodes that no face of a thing is near, nor as low or as high as those rays: none of them
// meets one between two such neighbours, nor within a cell of which all four are such. Only on the
// ground's own grid; empty where it is not known.
std::vector<std::uint8_t> near_things(const Model& model, const geom::Grid& grid, double height);

// Does the ground of each cell (at its lower left node) bend so little that no such ray between two
// of its points meets it?
bool flat_enough(const geom::Heightfield& ground, int i, int j, double height);

// Where nothing of the yard lies over the ground: no line up need be asked there.
struct OpenSky {
  std::shared_ptr<const geom::RayScene> scene;  // whose parts it is of
  geom::Grid grid;
  // By cell, at its lower left node: some face of a part that blocks a body may lie over or under
  // it, however high.
  std::vector<std::uint8_t> covered;
  // Surely no upright line through p meets a part. False beyond the grid.
  bool over(geom::Vec2 p) const;
};
OpenSky open_sky(const Model& model);

}  // namespace hummock::usable
