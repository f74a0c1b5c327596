// OpenGL's own complaints, counted and kept.
#pragma once

#include <string>

namespace hummock::viewer {

// Asks the current context to report errors. In a debug context every error-severity message is
// counted; without the extension `gl_errors` polls glGetError.
void watch_gl_errors();

// Errors since the program started, and the first message (empty = none).
struct GlErrors {
  int count = 0;
  std::string first;
};
GlErrors gl_errors();

}  // namespace hummock::viewer
