#include "viewer/draw/shadow_map.h"

#include <epoxy/gl.h>

#include <algorithm>
#include <cmath>

namespace hummock::viewer {
namespace {

using geom::Vec3;

constexpr int kSize = 2048;

// The light's parallel view, fitted to the box as seen along the light.
Matrix4 light_view(Vec3 to_sun, const geom::Box3& box) {
  const Vec3 f = -geom::unit(to_sun);
  const Vec3 up = std::abs(f.z) > 0.99 ? Vec3{0, 1, 0} : Vec3{0, 0, 1};
  const Matrix4 turn = look({}, f, up);
  geom::Box3 seen;
  for (int k = 0; k < 8; ++k) {
    const Vec3 corner{k & 1 ? box.hi.x : box.lo.x, k & 2 ? box.hi.y : box.lo.y,
                      k & 4 ? box.hi.z : box.lo.z};
    const Clip q = transform(turn, corner);
    seen.add(Vec3{q.x, q.y, q.z});
  }
  Matrix4 shift;
  const Vec3 c = seen.centre();
  shift.at(0, 3) = -c.x;
  shift.at(1, 3) = -c.y;
  shift.at(2, 3) = -c.z;
  const Vec3 half = (seen.hi - seen.lo) * 0.5 + Vec3{0.1, 0.1, 0.1};
  return orthographic(half.x, half.y, -half.z, half.z) * (shift * turn);
}

}  // namespace

ShadowMap::ShadowMap() {
  glGenTextures(1, &depth_);
  glBindTexture(GL_TEXTURE_2D, depth_);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, kSize, kSize, 0, GL_DEPTH_COMPONENT,
               GL_FLOAT, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_BORDER);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_BORDER);
  const float lit[] = {1, 1, 1, 1};
  glTexParameterfv(GL_TEXTURE_2D, GL_TEXTURE_BORDER_COLOR, lit);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
  glGenFramebuffers(1, &frame_);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, depth_, 0);
  glDrawBuffer(GL_NONE);
  glReadBuffer(GL_NONE);
}

ShadowMap::~ShadowMap() {
  glDeleteFramebuffers(1, &frame_);
  glDeleteTextures(1, &depth_);
}

void ShadowMap::begin(Vec3 to_sun, const geom::Box3& box) {
  const Matrix4 clip = light_view(to_sun, box);
  Matrix4 half;
  for (int i = 0; i < 3; ++i) {
    half.at(i, i) = 0.5;
    half.at(i, 3) = 0.5;
  }
  lookup_ = half * clip;
  glBindFramebuffer(GL_FRAMEBUFFER, frame_);
  glViewport(0, 0, kSize, kSize);
  glClear(GL_DEPTH_BUFFER_BIT);
  glEnable(GL_DEPTH_TEST);
  glDepthMask(GL_TRUE);
  glEnable(GL_POLYGON_OFFSET_FILL);
  glPolygonOffset(1.5F, 4.0F);
  shader_.use();
  shader_.set("u_sun_clip", clip);
}

void ShadowMap::end() {
  glDisable(GL_POLYGON_OFFSET_FILL);
}

}  // namespace hummock::viewer
