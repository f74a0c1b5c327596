// A picture without a window.
#pragma once

#include "viewer/app/start/options.h"

namespace hummock::viewer {

// Writes options.shot. The layer, the check (for findings, choices and panels) and the corner shade
// are waited for. Throws InputError, or std::runtime_error where no OpenGL is to be had.
int run_shot(const Options& options);

}  // namespace hummock::viewer
