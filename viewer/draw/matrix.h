// 4 × 4 matrices as OpenGL wants them: column by column, acting on column vectors.
#pragma once

#include <array>

#include "geometry/vec.h"

namespace hummock::viewer {

struct Matrix4 {
  std::array<double, 16> m{1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1};
  double& at(int row, int column) {
    return m[static_cast<std::size_t>(column) * 4 + static_cast<std::size_t>(row)];
  }
  double at(int row, int column) const {
    return m[static_cast<std::size_t>(column) * 4 + static_cast<std::size_t>(row)];
  }
};

Matrix4 operator*(const Matrix4& a, const Matrix4& b);

// Right-handed eye space: x right, y up, −z ahead.
Matrix4 look(geom::Vec3 eye, geom::Vec3 forward, geom::Vec3 up);
// fov_y in radians, 0 < near < far.
Matrix4 perspective(double fov_y, double aspect, double near_plane, double far_plane);
Matrix4 orthographic(double half_width, double half_height, double near_plane, double far_plane);
// Turn about the vertical through `about`, then shift.
Matrix4 turn_and_shift(double turn, geom::Vec3 about, geom::Vec3 shift);

struct Clip {
  double x, y, z, w;
};
Clip transform(const Matrix4& matrix, geom::Vec3 p);

std::array<float, 16> floats(const Matrix4& matrix);

}  // namespace hummock::viewer
