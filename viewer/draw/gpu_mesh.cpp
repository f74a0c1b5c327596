#include "viewer/draw/gpu_mesh.h"

#include <epoxy/gl.h>

#include <cstddef>
#include <utility>

namespace hummock::viewer {
namespace {

template <class T>
void fill(GLenum target, unsigned buffer, const std::vector<T>& data) {
  glBindBuffer(target, buffer);
  glBufferData(target, static_cast<GLsizeiptr>(data.size() * sizeof(T)), data.data(),
               GL_STATIC_DRAW);
}

const void* offset(std::size_t bytes) {
  return reinterpret_cast<const void*>(bytes);
}

}  // namespace

GpuMesh::GpuMesh(const Drawable& d)
    : count_(static_cast<int>(d.indices.size())), coarse_count_(static_cast<int>(d.coarse.size())) {
  glGenVertexArrays(1, &array_);
  glGenBuffers(4, buffers_);
  glBindVertexArray(array_);
  fill(GL_ARRAY_BUFFER, buffers_[0], d.vertices);
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, sizeof(Vertex), offset(0));
  glEnableVertexAttribArray(1);
  glVertexAttribPointer(1, 3, GL_FLOAT, GL_FALSE, sizeof(Vertex), offset(offsetof(Vertex, normal)));
  fill(GL_ELEMENT_ARRAY_BUFFER, buffers_[2], d.coarse);
  fill(GL_ELEMENT_ARRAY_BUFFER, buffers_[1], d.indices);
  glBindVertexArray(0);
  if (!d.open.empty()) set_open(d.open);
}

GpuMesh::GpuMesh(GpuMesh&& other) noexcept
    : array_(std::exchange(other.array_, 0)),
      count_(other.count_),
      coarse_count_(other.coarse_count_) {
  for (int i = 0; i < 4; ++i) buffers_[i] = std::exchange(other.buffers_[i], 0);
}

GpuMesh::~GpuMesh() {
  glDeleteVertexArrays(1, &array_);
  glDeleteBuffers(4, buffers_);
}

void GpuMesh::set_open(const std::vector<std::uint8_t>& open) {
  glBindVertexArray(array_);
  fill(GL_ARRAY_BUFFER, buffers_[3], open);
  glEnableVertexAttribArray(2);
  glVertexAttribPointer(2, 1, GL_UNSIGNED_BYTE, GL_TRUE, 1, offset(0));
  glBindVertexArray(0);
}

void GpuMesh::draw(bool coarse) const {
  const bool few = coarse && coarse_count_ > 0;
  glBindVertexArray(array_);
  glVertexAttrib1f(2, 1.0F);  // where no corner shade has been worked out yet
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, buffers_[few ? 2 : 1]);
  glDrawElements(GL_TRIANGLES, few ? coarse_count_ : count_, GL_UNSIGNED_INT, offset(0));
  glBindVertexArray(0);
}

}  // namespace hummock::viewer
