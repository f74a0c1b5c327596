// The viewer's state as JSON, so that a test with a mouse knows where to aim and what came of it.
#pragma once

#include <filesystem>
#include <string>

#include "viewer/app/session.h"

namespace hummock::viewer {

// Pixels are of the window, from its top left.
std::string state_json(const Session& session, double scene_x, double scene_y,
                       double units_per_pixel);

}  // namespace hummock::viewer
