// The largest circle and a large rectangle of ground the animal can live on.
//
// Inside the outline, clear of houses and dens (exact outlines) and of ground it cannot live on:
// stones, steep places, deep water, low headroom, patches its body does not fit
// (engine/usable/living_nodes.h, "can live"). Such ground is known by nodes, each of which is taken
// to reach half a cell about it, so a shape that touches it is off by at most a cell or so either
// way. Things in the yard, however thin, are kept clear of by their lines on plan, as tall as the
// animal or less (engine/usable/thing_lines.h). In a yard without any of it:
// geometry/plan/polygon.h, exact to the precision given there.
#pragma once

#include <memory>
#include <vector>

#include "engine/model/model.h"
#include "engine/usable/living_nodes.h"
#include "engine/usable/thing_lines.h"

namespace hummock::space {

// All that the shapes follow from.
struct ShapesAsked {
  Polygon outline;
  std::vector<Polygon> shelters;
  geom::Grid grid;
  std::vector<std::uint8_t> inside, live;  // as of usable::Nodes
  std::vector<usable::PlanLine> things;
  friend bool operator==(const ShapesAsked&, const ShapesAsked&) = default;
};

struct FreeShapes {
  geom::Circle circle;
  geom::RectangleInside rectangle;
  ShapesAsked asked;
};
// Those of `known` (may be null) where the same is asked.
std::shared_ptr<const FreeShapes> free_shapes(const Model& model,
                                              const usable::UsableGround& ground,
                                              const usable::Nodes& nodes,
                                              const std::shared_ptr<const FreeShapes>& known);

}  // namespace hummock::space
