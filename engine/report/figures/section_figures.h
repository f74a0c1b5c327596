// Sections: the escape route unrolled, and the barrier with its dig tunnel. Heights and lengths to
// the same scale.
#pragma once

#include <optional>

#include "engine/dig/dig.h"
#include "engine/draw/canvas.h"
#include "engine/leap/leap.h"
#include "engine/model/model.h"

namespace hummock::report {

// Long section along the escape route: ground, what stands on it, the barrier, each leap's flight
// with its effort. Nothing when there is no route. The model must outlive the figure.
std::optional<draw::Figure> route_section(const Model& model, const leap::Result& leap);

// Cross-section of the barrier at the worst station, with the tunnel. Nothing when none is open.
std::optional<draw::Figure> dig_section(const Model& model, const dig::Result& dig);

}  // namespace hummock::report
