// A picture to draw into: colour and depth textures, with or without multisampling.
#pragma once

#include <vector>

namespace hummock::viewer {

// Rows bottom first, as OpenGL gives them; RGBA, 8 bits each.
struct Pixels {
  int width = 0;
  int height = 0;
  std::vector<unsigned char> rgba;
};

class FrameTarget {
 public:
  FrameTarget() = default;
  ~FrameTarget();
  FrameTarget(const FrameTarget&) = delete;
  FrameTarget& operator=(const FrameTarget&) = delete;

  // Makes the textures anew when size or samples differ. samples: 1 = none, 2, 4, 8.
  void resize(int width, int height, int samples);
  void bind() const;     // draw into it
  void resolve() const;  // after drawing: fills `texture` from the samples
  unsigned texture() const { return colour_; }
  int width() const { return width_; }
  int height() const { return height_; }
  Pixels read() const;

 private:
  void release();
  int width_ = 0;
  int height_ = 0;
  int samples_ = 1;
  unsigned frame_ = 0;  // what `texture` belongs to
  unsigned colour_ = 0;
  unsigned depth_ = 0;
  unsigned many_ = 0;  // multisampled
  unsigned many_colour_ = 0;
  unsigned many_depth_ = 0;
};

}  // namespace hummock::viewer
