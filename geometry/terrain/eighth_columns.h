// An eighth's columns of nodes, near to far, as the sweep reads them: w = (z − z_eye) / p.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>

#include "geometry/terrain/eighth_sweep.h"

namespace hummock::geom {

// Where the nodes of an eighth are: column k, row j, both from 0 at the eye outwards, in cells.
class EighthColumns {
 public:
  EighthColumns(const Heightfield& ground, Vec3 eye, Eighth way, const NodeRange& wanted)
      : ground_(ground), way_(way), eye_z_(eye.z) {
    const Grid& g = ground.grid;
    const double ex = std::clamp((eye.x - g.x0) / g.cell, 0.0, g.nx - 1.0);
    const double ey = std::clamp((eye.y - g.y0) / g.cell, 0.0, g.ny - 1.0);
    set_axis(way.along_x ? ex : ey, way.along_x ? g.nx : g.ny, way.sign_p, first_p_, count_p_, p_);
    set_axis(way.along_x ? ey : ex, way.along_x ? g.ny : g.nx, way.sign_q, first_q_, count_q_, q_);
    if (p_ == 0.0) {  // a column through the eye itself takes no part
      first_p_ += way.sign_p;
      --count_p_;
      p_ = 1.0;
    }
    const std::ptrdiff_t row = g.nx;
    stride_p_ = (way.along_x ? 1 : row) * way.sign_p;
    stride_q_ = (way.along_x ? row : 1) * way.sign_q;
    base_ = way.along_x ? first_q_ * row + first_p_ : first_p_ * row + first_q_;
    count_p_ = std::min(count_p_, columns_to(wanted));
    most_rows_ = static_cast<std::size_t>(last_row(p_ + count_p_ + 1.0)) + 2;
    // At once as long as any will be, and not cleared: what is read of it was written.
    w_ = std::make_unique_for_overwrite<double[]>(most_rows_ * kKept);
  }

  int columns() const { return count_p_; }
  int rows() const { return count_q_; }
  double p() const { return p_; }  // of column 0
  double q() const { return q_; }  // of row 0
  double row(int j) const { return q_ + j; }
  // Row −1 is the one just across the axis; it exists when the eye is between two rows.
  int first_row() const { return q_ > 0.0 ? -1 : 0; }
  std::ptrdiff_t node(int k, int j) const { return base_ + k * stride_p_ + j * stride_q_; }
  std::ptrdiff_t stride_q() const { return stride_q_; }
  double height(int k, int j) const {
    return ground_.z[static_cast<std::size_t>(node(k, j))] - eye_z_;
  }
  bool exists(int k) const {  // also nearer than the eye
    const std::ptrdiff_t c = first_p_ + k * way_.sign_p;
    return c >= 0 && c < (way_.along_x ? ground_.grid.nx : ground_.grid.ny);
  }
  bool other_side_has_rows() const {
    const Grid& g = ground_.grid;
    return count_q_ < (way_.along_x ? g.ny : g.nx);
  }
  // Rows of a column whose nodes bound the eighth there: up to the first at or beyond q = p.
  int last_row(double p) const {
    return std::min(count_q_ - 1, std::max(0, static_cast<int>(std::ceil(p - q_))));
  }

  // Column k's w, [j + 1] of row j, two rows past the eighth's edge where there are any; holds
  // until the call after the next. Columns are asked for one by one from 0 on.
  const double* load(int k) {
    if (!way_.along_x) return load_one(k);
    if (k % kTogether == 0) load_tile(k);
    return column(k);
  }

 private:
  // Along x a column's nodes lie one in each row of the grid: eight columns at a time share a line
  // of the cache.
  static constexpr int kTogether = 8;
  static constexpr int kKept = kTogether + 1;  // those, and the last of those before

  // How many columns there are up to the last with a wanted node ahead of the eye; 0 where this
  // eighth has none.
  int columns_to(const NodeRange& wanted) const {
    const auto ahead = [](std::ptrdiff_t first, int sign, int lo, int hi) {
      return sign > 0 ? hi - static_cast<int>(first) : static_cast<int>(first) - lo;
    };
    const int p = way_.along_x ? ahead(first_p_, way_.sign_p, wanted.i0, wanted.i1)
                               : ahead(first_p_, way_.sign_p, wanted.j0, wanted.j1);
    const int q = way_.along_x ? ahead(first_q_, way_.sign_q, wanted.j0, wanted.j1)
                               : ahead(first_q_, way_.sign_q, wanted.i0, wanted.i1);
    return q < 0 ? 0 : std::max(0, p + 1);
  }
  static void set_axis(double eye, int n, int sign, std::ptrdiff_t& first, int& count,
                       double& offset) {
    const double f = sign > 0 ? std::ceil(eye) : std::floor(eye);
    first = static_cast<std::ptrdiff_t>(f);
    count = sign > 0 ? n - static_cast<int>(f) : static_cast<int>(f) + 1;
    offset = std::abs(f - eye);
  }
  double* column(int k) const {
    return w_.get() + static_cast<std::size_t>(k % kKept) * most_rows_;
  }
  const double* load_one(int k) {
    const int from = first_row(), to = last_row(p_ + k + 2.0);
    double* w = column(k) + 1;
    const double* z = ground_.z.data() + node(k, 0);
    if (way_.sign_q > 0)
      seen_from<1>(z, from, to, eye_z_, 1.0 / (p_ + k), w);
    else
      seen_from<-1>(z, from, to, eye_z_, 1.0 / (p_ + k), w);
    return w - 1;
  }
  template <int step>
  __attribute__((always_inline)) static void seen_row_by_row(const double* z, int from, int to,
                                                             double eye_z, double scale,
                                                             double* __restrict w) {
    for (int j = from; j <= to; ++j) w[j] = (z[step * j] - eye_z) * scale;
  }
#if defined(__x86_64__)
  template <int step>
  __attribute__((target("avx2"))) static void seen_wide(const double* z, int from, int to,
                                                        double eye_z, double scale,
                                                        double* __restrict w) {
    seen_row_by_row<step>(z, from, to, eye_z, scale, w);
  }
  template <int step>
  static void seen_from(const double* z, int from, int to, double eye_z, double scale, double* w) {
    static const bool wide = __builtin_cpu_supports("avx2") != 0;
    if (wide)
      seen_wide<step>(z, from, to, eye_z, scale, w);
    else
      seen_row_by_row<step>(z, from, to, eye_z, scale, w);
  }
#else
  template <int step>
  static void seen_from(const double* z, int from, int to, double eye_z, double scale, double* w) {
    seen_row_by_row<step>(z, from, to, eye_z, scale, w);
  }
#endif
  void load_tile(int k) {
    const int many = std::min(kTogether, count_p_ - k);
    Tile tile;
    for (int c = 0; c < many; ++c) {
      tile.w[c] = column(k + c) + 1;
      tile.scale[c] = 1.0 / (p_ + (k + c));
    }
    tile.z = ground_.z.data() + node(k, 0);
    tile.from = first_row();
    tile.to = last_row(p_ + k + many + 1.0);
    if (many < kTogether)
      tile_rows(tile, many, way_.sign_p);
    else if (way_.sign_p > 0)
      tile_rows(tile, kTogether, 1);
    else
      tile_rows(tile, kTogether, -1);
  }
  struct Tile {
    const double* z;
    int from, to;
    double* w[kTogether];
    double scale[kTogether];
  };
  // Always part of its caller, where the two numbers are known.
  __attribute__((always_inline)) void tile_rows(const Tile& tile, int many, int step) const {
    constexpr int kAhead = 24;  // rows: a line of each is on its way from memory at a time
    const double eye_z = eye_z_;
    const std::ptrdiff_t stride = stride_q_;
    for (int j = tile.from; j <= tile.to; ++j) {
      const double* z = tile.z + j * stride;
      __builtin_prefetch(z + kAhead * stride);
      __builtin_prefetch(z + kAhead * stride + step * (kTogether - 1));
      double w[kTogether];
      for (int c = 0; c < many; ++c) w[c] = (z[c * step] - eye_z) * tile.scale[c];
      for (int c = 0; c < many; ++c) tile.w[c][j] = w[c];
    }
  }

  const Heightfield& ground_;
  Eighth way_;
  double eye_z_;
  std::ptrdiff_t first_p_ = 0, first_q_ = 0, stride_p_ = 0, stride_q_ = 0, base_ = 0;
  int count_p_ = 0, count_q_ = 0;
  double p_ = 0.0, q_ = 0.0;   // of the first column and row ahead of the eye, in cells
  std::size_t most_rows_ = 0;  // of a column's w
  std::unique_ptr<double[]> w_;
};

}  // namespace hummock::geom
