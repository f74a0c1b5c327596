#include "geometry/terrain/terrain_metrics.h"

#include "geometry/terrain/terrain_rows.h"

// Built with -O3 and without errno from sqrt (geometry/CMakeLists.txt), so that the loops below
// become vector code.
namespace hummock::geom {
namespace {

using rows::Three;

Three rows_about(const Heightfield& ground, int j) {
  const double* z = ground.z.data();
  return {z + ground.grid.index(0, j - 1), z + ground.grid.index(0, j),
          z + ground.grid.index(0, j + 1)};
}

// value(rows, i) for every node with a whole window.
template <class Value>
Raster window_raster(const Heightfield& ground, Value value) {
  Raster out(ground.grid);
  const int n = ground.grid.nx;
  for (int j = 1; j + 1 < ground.grid.ny; ++j) {
    const Three r = rows_about(ground, j);
    float* __restrict row = out.values.data() + ground.grid.index(0, j);
    for (int i = 1; i < n - 1; ++i) row[i] = static_cast<float>(value(r, i));
  }
  return out;
}

// Unit normals of one row by Horn's gradient.
struct Normals {
  std::vector<double> x, y, z;
  explicit Normals(int n) : x(n), y(n), z(n) {}
};

void normals_of_row(const Heightfield& ground, int j, Normals& out) {
  const Three r = rows_about(ground, j);
  const double scale = 1.0 / (8.0 * ground.grid.cell);
  double* __restrict x = out.x.data();
  double* __restrict y = out.y.data();
  double* __restrict z = out.z.data();
  for (int i = 1; i < ground.grid.nx - 1; ++i) {
    const double gx = rows::gx8(r, i) * scale;
    const double gy = rows::gy8(r, i) * scale;
    const double up = 1.0 / std::sqrt(1.0 + gx * gx + gy * gy);
    x[i] = -gx * up;
    y[i] = -gy * up;
    z[i] = up;
  }
}

double nine(const std::vector<double>& a, const std::vector<double>& b,
            const std::vector<double>& c, int i) {
  return (a[i - 1] + a[i] + a[i + 1]) + (b[i - 1] + b[i] + b[i + 1]) + (c[i - 1] + c[i] + c[i + 1]);
}

// Area of the triangle with the centre and two neighbours of the ring as corners, each edge halved:
// a quarter of the full triangle's (Jenness 2004, p. 831). u, v: from the centre.
double quarter_triangle(Vec3 u, Vec3 v) {
  return 0.125 * length(cross(u, v));
}

}  // namespace

Raster slope(const Heightfield& ground) {
  const double scale = 1.0 / (8.0 * ground.grid.cell);
  return window_raster(ground, [scale](const Three& r, int i) {
    const double gx = rows::gx8(r, i) * scale;
    const double gy = rows::gy8(r, i) * scale;
    return rows::atan_positive(static_cast<float>(std::sqrt(gx * gx + gy * gy)));
  });
}

Raster aspect(const Heightfield& ground) {
  // Downhill is (−gx, −gy); its bearing from +y clockwise is atan2(−gx, −gy), taken apart by
  // octant.
  return window_raster(ground, [](const Three& r, int i) {
    const double east = -rows::gx8(r, i);
    const double north = -rows::gy8(r, i);
    const double ae = std::abs(east);
    const double an = std::abs(north);
    const bool wide = ae > an;
    const double large = wide ? ae : an;
    const double small = wide ? an : ae;
    // 0/0 where level gives the NaN wanted.
    const float a = rows::atan_positive(static_cast<float>(small / large));
    const double quarter = wide ? kPi / 2 - a : a;
    const double half = north < 0.0 ? kPi - quarter : quarter;
    const double full = east < 0.0 ? 2.0 * kPi - half : half;
    return static_cast<float>(full) < static_cast<float>(2.0 * kPi) || full != full ? full : 0.0;
  });
}

Raster ruggedness(const Heightfield& ground) {
  return window_raster(ground, [](const Three& r, int i) { return rows::ruggedness(r, i); });
}

Raster position_index(const Heightfield& ground) {
  return window_raster(ground, [](const Three& r, int i) { return rows::position(r, i); });
}

Raster roughness(const Heightfield& ground) {
  return window_raster(ground, [](const Three& r, int i) { return rows::roughness(r, i); });
}

Raster vector_ruggedness(const Heightfield& ground) {
  Raster out(ground.grid);
  const int nx = ground.grid.nx;
  const int ny = ground.grid.ny;
  if (nx < 5 || ny < 5) return out;
  Normals a(nx), b(nx), c(nx);
  normals_of_row(ground, 1, a);
  normals_of_row(ground, 2, b);
  for (int j = 2; j + 2 < ny; ++j) {
    normals_of_row(ground, j + 1, c);
    float* row = out.values.data() + ground.grid.index(0, j);
    for (int i = 2; i < nx - 2; ++i) {
      const double x = nine(a.x, b.x, c.x, i);
      const double y = nine(a.y, b.y, c.y, i);
      const double z = nine(a.z, b.z, c.z, i);
      row[i] = static_cast<float>(1.0 - std::sqrt(x * x + y * y + z * z) / 9.0);
    }
    std::swap(a, b);
    std::swap(b, c);
  }
  return out;
}

Raster surface_ratio(const Heightfield& ground) {
  const double c = ground.grid.cell;
  return window_raster(ground, [c](const Three& r, int i) {
    const double o = r.m[i];
    const Vec3 ring[8] = {{c, 0, r.m[i + 1] - o},  {c, c, r.t[i + 1] - o},
                          {0, c, r.t[i] - o},      {-c, c, r.t[i - 1] - o},
                          {-c, 0, r.m[i - 1] - o}, {-c, -c, r.s[i - 1] - o},
                          {0, -c, r.s[i] - o},     {c, -c, r.s[i + 1] - o}};
    double area = 0.0;
    for (int k = 0; k < 8; ++k) area += quarter_triangle(ring[k], ring[(k + 1) % 8]);
    return area / (c * c);
  });
}

}  // namespace hummock::geom
