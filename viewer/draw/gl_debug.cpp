#include "viewer/draw/gl_debug.h"

#include <epoxy/gl.h>

namespace hummock::viewer {
namespace {

// One process draws in one context; OpenGL's callback has no better home for its count.
GlErrors& seen() {
  static GlErrors errors;
  return errors;
}

void note(const std::string& message) {
  if (seen().count++ == 0) seen().first = message;
}

void on_message(GLenum, GLenum type, GLuint, GLenum severity, GLsizei length, const GLchar* text,
                const void*) {
  if (type == GL_DEBUG_TYPE_ERROR || severity == GL_DEBUG_SEVERITY_HIGH)
    note(std::string(text, static_cast<std::size_t>(length > 0 ? length : 0)));
}

}  // namespace

void watch_gl_errors() {
  if (epoxy_gl_version() < 43 && !epoxy_has_gl_extension("GL_KHR_debug")) return;
  glEnable(GL_DEBUG_OUTPUT);
  glEnable(GL_DEBUG_OUTPUT_SYNCHRONOUS);
  glDebugMessageCallback(on_message, nullptr);
}

GlErrors gl_errors() {
  for (int i = 0; i < 16; ++i) {
    const GLenum error = glGetError();
    if (error == GL_NO_ERROR) break;
    note("glGetError " + std::to_string(error));
  }
  return seen();
}

}  // namespace hummock::viewer
