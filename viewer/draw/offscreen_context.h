// An OpenGL 3.3 core context with no window and no display, for pictures in batch and for tests.
//
// Through EGL's surfaceless platform (Mesa) or, failing that, the default display. Throws
// std::runtime_error with one line when neither gives a context.
#pragma once

namespace hummock::viewer {

class OffscreenContext {
 public:
  OffscreenContext();
  ~OffscreenContext();
  OffscreenContext(const OffscreenContext&) = delete;
  OffscreenContext& operator=(const OffscreenContext&) = delete;

 private:
  void* display_ = nullptr;
  void* context_ = nullptr;
};

}  // namespace hummock::viewer
