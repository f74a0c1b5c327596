#include "viewer/draw/offscreen_context.h"

#include <epoxy/egl.h>
#include <epoxy/gl.h>

#include <stdexcept>

#include "viewer/draw/gl_debug.h"

namespace hummock::viewer {
namespace {

EGLDisplay open_display() {
  if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_MESA_platform_surfaceless")) {
    const EGLDisplay display =
        eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
    if (display != EGL_NO_DISPLAY && eglInitialize(display, nullptr, nullptr)) return display;
  }
  const EGLDisplay display = eglGetDisplay(EGL_DEFAULT_DISPLAY);
  if (display != EGL_NO_DISPLAY && eglInitialize(display, nullptr, nullptr)) return display;
  throw std::runtime_error("no OpenGL without a window here (EGL gives no display)");
}

}  // namespace

OffscreenContext::OffscreenContext() {
  display_ = open_display();
  eglBindAPI(EGL_OPENGL_API);
  const EGLint wanted[] = {EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT,
                           EGL_NONE};
  EGLConfig config = nullptr;
  EGLint count = 0;
  eglChooseConfig(display_, wanted, &config, 1, &count);
  const EGLint attributes[] = {EGL_CONTEXT_MAJOR_VERSION,
                               3,
                               EGL_CONTEXT_MINOR_VERSION,
                               3,
                               EGL_CONTEXT_OPENGL_PROFILE_MASK,
                               EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                               EGL_CONTEXT_OPENGL_DEBUG,
                               EGL_TRUE,
                               EGL_NONE};
  context_ = count > 0 ? eglCreateContext(display_, config, EGL_NO_CONTEXT, attributes) : nullptr;
  if (context_ == nullptr || !eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, context_)) {
    eglTerminate(display_);
    throw std::runtime_error("no OpenGL 3.3 core context without a window here");
  }
  watch_gl_errors();
}

OffscreenContext::~OffscreenContext() {
  eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  eglDestroyContext(display_, context_);
  eglTerminate(display_);
}

}  // namespace hummock::viewer
