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

#include "engine/model/model.h"
#include "engine/usable/living_nodes.h"

namespace hummock::space {

struct FreeShapes {
  geom::Circle circle;
  geom::RectangleInside rectangle;
};
FreeShapes free_shapes(const Model& model, const usable::UsableGround& ground,
                       const usable::Nodes& nodes);

}  // namespace hummock::space
