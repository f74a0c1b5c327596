// The depth of the scene as the sun sees it.
#pragma once

#include <vector>

#include "viewer/draw/matrix.h"
#include "viewer/draw/shader.h"

namespace hummock::viewer {

class ShadowMap {
 public:
  ShadowMap();
  ~ShadowMap();
  ShadowMap(const ShadowMap&) = delete;
  ShadowMap& operator=(const ShadowMap&) = delete;

  // Begins drawing: binds the map and sets the light's view over `box`. Draw with `shader()`.
  void begin(geom::Vec3 to_sun, const geom::Box3& box);
  void end();
  Shader& shader() { return shader_; }
  unsigned texture() const { return depth_; }
  // World → 0..1 in the map.
  const Matrix4& lookup() const { return lookup_; }

 private:
  Shader shader_{"shadow"};
  unsigned frame_ = 0;
  unsigned depth_ = 0;
  Matrix4 lookup_;
};

}  // namespace hummock::viewer
