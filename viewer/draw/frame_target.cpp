#include "viewer/draw/frame_target.h"

#include <epoxy/gl.h>

namespace hummock::viewer {

FrameTarget::~FrameTarget() {
  release();
}

void FrameTarget::release() {
  if (frame_ == 0) return;  // nothing made yet, perhaps no context either
  glDeleteFramebuffers(1, &frame_);
  glDeleteFramebuffers(1, &many_);
  glDeleteTextures(1, &colour_);
  const unsigned buffers[] = {depth_, many_colour_, many_depth_};
  glDeleteRenderbuffers(3, buffers);
  frame_ = many_ = colour_ = depth_ = many_colour_ = many_depth_ = 0;
}

namespace {

unsigned renderbuffer(GLenum format, GLenum attachment, int width, int height, int samples) {
  unsigned name = 0;
  glGenRenderbuffers(1, &name);
  glBindRenderbuffer(GL_RENDERBUFFER, name);
  if (samples > 1)
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples, format, width, height);
  else
    glRenderbufferStorage(GL_RENDERBUFFER, format, width, height);
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, attachment, GL_RENDERBUFFER, name);
  return name;
}

}  // namespace

void FrameTarget::resize(int width, int height, int samples) {
  GLint most = 1;
  glGetIntegerv(GL_MAX_SAMPLES, &most);
  if (samples > most) samples = most;
  if (width == width_ && height == height_ && samples == samples_ && frame_ != 0) return;
  release();
  width_ = width;
  height_ = height;
  samples_ = samples;
  glGenFramebuffers(1, &frame_);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glGenTextures(1, &colour_);
  glBindTexture(GL_TEXTURE_2D, colour_);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, colour_, 0);
  depth_ = renderbuffer(GL_DEPTH_COMPONENT24, GL_DEPTH_ATTACHMENT, width, height, 1);
  if (samples <= 1) return;
  glGenFramebuffers(1, &many_);
  glBindFramebuffer(GL_FRAMEBUFFER, many_);
  many_colour_ = renderbuffer(GL_RGBA8, GL_COLOR_ATTACHMENT0, width, height, samples);
  many_depth_ = renderbuffer(GL_DEPTH_COMPONENT24, GL_DEPTH_ATTACHMENT, width, height, samples);
}

void FrameTarget::bind() const {
  glBindFramebuffer(GL_FRAMEBUFFER, samples_ > 1 ? many_ : frame_);
  glViewport(0, 0, width_, height_);
}

void FrameTarget::resolve() const {
  if (samples_ <= 1) return;
  glBindFramebuffer(GL_READ_FRAMEBUFFER, many_);
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, frame_);
  glBlitFramebuffer(0, 0, width_, height_, 0, 0, width_, height_, GL_COLOR_BUFFER_BIT, GL_NEAREST);
}

Pixels FrameTarget::read() const {
  Pixels out{width_, height_, {}};
  out.rgba.resize(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_) * 4);
  glBindFramebuffer(GL_READ_FRAMEBUFFER, frame_);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width_, height_, GL_RGBA, GL_UNSIGNED_BYTE, out.rgba.data());
  return out;
}

}  // namespace hummock::viewer
