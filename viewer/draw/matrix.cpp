#include "viewer/draw/matrix.h"

#include <cmath>

namespace hummock::viewer {

using geom::Vec3;

Matrix4 operator*(const Matrix4& a, const Matrix4& b) {
  Matrix4 product;
  for (int r = 0; r < 4; ++r)
    for (int c = 0; c < 4; ++c) {
      double sum = 0.0;
      for (int k = 0; k < 4; ++k) sum += a.at(r, k) * b.at(k, c);
      product.at(r, c) = sum;
    }
  return product;
}

Matrix4 look(Vec3 eye, Vec3 forward, Vec3 up) {
  const Vec3 f = geom::unit(forward);
  const Vec3 r = geom::unit(geom::cross(f, up));
  const Vec3 u = geom::cross(r, f);
  Matrix4 view;
  const Vec3 rows[3] = {r, u, -f};
  for (int i = 0; i < 3; ++i) {
    view.at(i, 0) = rows[i].x;
    view.at(i, 1) = rows[i].y;
    view.at(i, 2) = rows[i].z;
    view.at(i, 3) = -geom::dot(rows[i], eye);
  }
  return view;
}

Matrix4 perspective(double fov_y, double aspect, double near_plane, double far_plane) {
  const double f = 1.0 / std::tan(fov_y / 2.0);
  Matrix4 p;
  p.m.fill(0.0);
  p.at(0, 0) = f / aspect;
  p.at(1, 1) = f;
  p.at(2, 2) = (far_plane + near_plane) / (near_plane - far_plane);
  p.at(2, 3) = 2.0 * far_plane * near_plane / (near_plane - far_plane);
  p.at(3, 2) = -1.0;
  return p;
}

Matrix4 orthographic(double half_width, double half_height, double near_plane, double far_plane) {
  Matrix4 p;
  p.at(0, 0) = 1.0 / half_width;
  p.at(1, 1) = 1.0 / half_height;
  p.at(2, 2) = -2.0 / (far_plane - near_plane);
  p.at(2, 3) = -(far_plane + near_plane) / (far_plane - near_plane);
  return p;
}

Matrix4 turn_and_shift(double turn, Vec3 about, Vec3 shift) {
  const double c = std::cos(turn);
  const double s = std::sin(turn);
  Matrix4 t;
  t.at(0, 0) = c;
  t.at(0, 1) = -s;
  t.at(1, 0) = s;
  t.at(1, 1) = c;
  t.at(0, 3) = about.x - c * about.x + s * about.y + shift.x;
  t.at(1, 3) = about.y - s * about.x - c * about.y + shift.y;
  t.at(2, 3) = shift.z;
  return t;
}

Clip transform(const Matrix4& a, Vec3 p) {
  const auto row = [&](int r) {
    return a.at(r, 0) * p.x + a.at(r, 1) * p.y + a.at(r, 2) * p.z + a.at(r, 3);
  };
  return {row(0), row(1), row(2), row(3)};
}

std::array<float, 16> floats(const Matrix4& matrix) {
  std::array<float, 16> out{};
  for (std::size_t i = 0; i < 16; ++i) out[i] = static_cast<float>(matrix.m[i]);
  return out;
}

}  // namespace hummock::viewer
