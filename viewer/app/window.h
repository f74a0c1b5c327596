// The window: GLFW, Dear ImGui, and the loop that waits for something to happen.
#pragma once

#include "viewer/app/start/options.h"

namespace hummock::viewer {

// Opens the site in a window and returns the exit status: 0, or 3 when OpenGL errors were to be
// counted and there were some. Throws InputError for a site that cannot be opened and
// std::runtime_error when no window can be had.
int run_window(const Options& options);

}  // namespace hummock::viewer
