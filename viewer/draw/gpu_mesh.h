// A drawable's triangles in the graphics card's memory.
#pragma once

#include <cstdint>
#include <vector>

#include "viewer/scene/scene.h"

namespace hummock::viewer {

class GpuMesh {
 public:
  explicit GpuMesh(const Drawable& drawable);
  ~GpuMesh();
  GpuMesh(GpuMesh&& other) noexcept;
  GpuMesh& operator=(GpuMesh&&) = delete;
  GpuMesh(const GpuMesh&) = delete;

  void set_open(const std::vector<std::uint8_t>& open);
  void draw(bool coarse) const;

 private:
  unsigned array_ = 0;
  unsigned buffers_[4] = {0, 0, 0, 0};  // vertices, indices, coarse indices, open
  int count_ = 0;
  int coarse_count_ = 0;
};

}  // namespace hummock::viewer
