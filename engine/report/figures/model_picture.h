// A picture of the model by rays, in parallel projection with the sun's shadows: what page one
// shows, and what stands for the turning model on paper and where a browser has no WebGL.
#pragma once

#include "engine/draw/canvas.h"
#include "engine/model/model.h"

namespace hummock::report {

// Seen from `from` (rad clockwise from +y, the side the eye stands on) and 35° above the level. The
// light comes from `sun` (unit, upwards); roofs are left out, so that one looks into the yard.
draw::Figure model_picture(const Model& model, double from, Vec3 sun, const std::string& light);

}  // namespace hummock::report
