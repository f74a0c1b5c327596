// A picture of the model by rays, in parallel projection with the sun's shadows: what page one
// shows, and what stands for the turning model on paper and where a browser has no WebGL.
#pragma once

#include <memory>
#include <string>

#include "engine/draw/canvas.h"
#include "engine/model/model.h"

namespace hummock::report {

// The model in one light, ready to be looked at from any side. The light comes from `sun` (unit,
// upwards) and is told as `light`; roofs are left out, so that one looks into the yard.
class PictureScene;
std::shared_ptr<const PictureScene> picture_scene(const Model& model, Vec3 sun,
                                                  const std::string& light);

// Seen from `from` (rad clockwise from +y, the side the eye stands on) and 35° above the level.
draw::Figure model_picture(const PictureScene& scene, double from);

}  // namespace hummock::report
