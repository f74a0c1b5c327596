#include "geometry/terrain/heightfield.h"

#include <array>

#include "geometry/mesh/convex_piece.h"
#include "geometry/plan/squares.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock::geom {
namespace {

// The cell that holds p (clamped to the grid) and p's place in it, 0..1.
struct InCell {
  int i = 0;
  int j = 0;
  double u = 0.0;
  double v = 0.0;
};

// Of one axis: the cell and the place in it.
struct Along {
  int cell = 0;
  double share = 0.0;
};

Along along(double at, double from, double cell, int nodes) {
  const double f = std::clamp((at - from) / cell, 0.0, static_cast<double>(nodes - 1));
  const int k = std::min(static_cast<int>(f), nodes - 2);
  return {k, f - k};
}

InCell locate(const Grid& g, Vec2 p) {
  const Along x = along(p.x, g.x0, g.cell, g.nx);
  const Along y = along(p.y, g.y0, g.cell, g.ny);
  return {x.cell, y.cell, x.share, y.share};
}

double height_in(const Heightfield& ground, const InCell& c) {
  const double b = ground.at(c.i + 1, c.j);
  const double d = ground.at(c.i, c.j + 1);
  if (c.u + c.v <= 1.0) {
    const double a = ground.at(c.i, c.j);
    return a + (b - a) * c.u + (d - a) * c.v;
  }
  const double k = ground.at(c.i + 1, c.j + 1);
  return k + (d - k) * (1.0 - c.u) + (b - k) * (1.0 - c.v);
}

// Rise along x and y of the triangle under the place in the cell.
Vec2 gradient(const Heightfield& ground, const InCell& c) {
  const double a = ground.at(c.i, c.j);
  const double b = ground.at(c.i + 1, c.j);
  const double d = ground.at(c.i, c.j + 1);
  if (c.u + c.v <= 1.0) return Vec2{b - a, d - a} * (1.0 / ground.grid.cell);
  const double k = ground.at(c.i + 1, c.j + 1);
  return Vec2{k - d, k - b} * (1.0 / ground.grid.cell);
}

}  // namespace

Heightfield level_ground(const Box2& area, double cell, double level) {
  Heightfield ground;
  ground.grid.x0 = area.lo.x;
  ground.grid.y0 = area.lo.y;
  ground.grid.cell = cell;
  ground.grid.nx =
      std::max(2, static_cast<int>(std::ceil((area.hi.x - area.lo.x) / cell - 1e-9)) + 1);
  ground.grid.ny =
      std::max(2, static_cast<int>(std::ceil((area.hi.y - area.lo.y) / cell - 1e-9)) + 1);
  ground.z.assign(ground.grid.size(), level);
  return ground;
}

double height_at(const Heightfield& ground, Vec2 p) {
  return height_in(ground, locate(ground.grid, p));
}

std::vector<double> heights_at(const Heightfield& ground, const std::vector<double>& xs,
                               const std::vector<double>& ys) {
  const Grid& g = ground.grid;
  std::vector<Along> columns;
  columns.reserve(xs.size());
  for (const double x : xs) columns.push_back(along(x, g.x0, g.cell, g.nx));
  std::vector<double> heights;
  heights.reserve(xs.size() * ys.size());
  for (const double y : ys) {
    const Along row = along(y, g.y0, g.cell, g.ny);
    for (const Along& column : columns)
      heights.push_back(height_in(ground, {column.cell, row.cell, column.share, row.share}));
  }
  return heights;
}

bool covers(const Heightfield& ground, Vec2 p) {
  const Grid& g = ground.grid;
  return p.x >= g.x0 && p.x <= g.x_max() && p.y >= g.y0 && p.y <= g.y_max();
}

Vec3 normal_at(const Heightfield& ground, Vec2 p) {
  const Vec2 rise = gradient(ground, locate(ground.grid, p));
  return unit(Vec3{-rise.x, -rise.y, 1.0});
}

double slope_at(const Heightfield& ground, Vec2 p) {
  return std::atan(length(gradient(ground, locate(ground.grid, p))));
}

std::vector<double> ground_breaks(const Heightfield& ground, Vec2 a, Vec2 b) {
  const Grid& g = ground.grid;
  const Vec2 p = Vec2{a.x - g.x0, a.y - g.y0} * (1.0 / g.cell);
  const Vec2 q = Vec2{b.x - g.x0, b.y - g.y0} * (1.0 / g.cell);
  std::vector<double> t{0.0, 1.0};
  add_whole_crossings(p.x, q.x, t);
  add_whole_crossings(p.y, q.y, t);
  add_whole_crossings(p.x + p.y, q.x + q.y, t);  // the diagonals x + y = whole
  std::sort(t.begin(), t.end());
  // Grid line and diagonal often cross in one point.
  const auto same = [](double s, double r) { return r - s < 1e-12; };
  t.erase(std::unique(t.begin(), t.end(), same), t.end());
  if (t.back() != 1.0) t.back() = 1.0;
  return t;
}

namespace {

using Corner3 = std::array<Vec3, 3>;

std::array<Corner3, 2> cell_triangles(const Heightfield& ground, int i, int j) {
  const auto node = [&](int ii, int jj) {
    return at_height(ground.grid.node(ii, jj), ground.at(ii, jj));
  };
  const Vec3 a = node(i, j);
  const Vec3 b = node(i + 1, j);
  const Vec3 c = node(i + 1, j + 1);
  const Vec3 d = node(i, j + 1);
  return {Corner3{a, b, d}, Corner3{c, d, b}};
}

// Convex piece of a ground triangle inside a counter-clockwise triangle in plan
// (Sutherland & Hodgman 1974, one half-plane after the other).
std::vector<Vec3> clipped(const Corner3& triangle, const std::array<Vec2, 3>& to) {
  std::vector<Vec3> piece(triangle.begin(), triangle.end());
  std::vector<Vec3> kept;
  for (std::size_t k = 0; k < 3 && !piece.empty(); ++k) {
    const Vec2 o = to[k];
    const Vec2 along = to[(k + 1) % 3] - o;
    kept.clear();
    for (std::size_t v = 0; v < piece.size(); ++v) {
      const Vec3 p = piece[v];
      const Vec3 q = piece[(v + 1) % piece.size()];
      const double sp = cross(along, xy(p) - o);
      const double sq = cross(along, xy(q) - o);
      if (sp >= 0.0) kept.push_back(p);
      if ((sp > 0.0 && sq < 0.0) || (sp < 0.0 && sq > 0.0)) {
        kept.push_back(lerp(p, q, sp / (sp - sq)));
      }
    }
    piece.swap(kept);
  }
  return piece;
}

bool holds_cell(const std::array<Vec2, 3>& t, const Grid& g, int i, int j) {
  for (std::size_t k = 0; k < 3; ++k) {
    for (int c = 0; c < 4; ++c) {
      const Vec2 p = g.node(i + c % 2, j + c / 2);
      if (cross(t[(k + 1) % 3] - t[k], p - t[k]) < 0.0) return false;
    }
  }
  return true;
}

struct CellRange {
  int i0 = 0, i1 = 0, j0 = 0, j1 = 0;  // half-open
};

CellRange cells_under(const Grid& g, const std::array<Vec2, 3>& t) {
  Box2 box;
  for (Vec2 p : t) box.add(p);
  const auto clamp_to = [](double f, int n) {
    return static_cast<int>(std::clamp(f, 0.0, static_cast<double>(n)));
  };
  return {clamp_to(std::floor((box.lo.x - g.x0) / g.cell), g.nx - 1),
          clamp_to(std::ceil((box.hi.x - g.x0) / g.cell), g.nx - 1),
          clamp_to(std::floor((box.lo.y - g.y0) / g.cell), g.ny - 1),
          clamp_to(std::ceil((box.hi.y - g.y0) / g.cell), g.ny - 1)};
}

// Certainly nothing of the triangle is left by one of the half-planes: all of it lies a nanometre
// off, more than the corners that clipping makes are rounded.
bool surely_off(const Corner3& triangle, const std::array<Vec2, 3>& to) {
  constexpr double kSure = 1e-9;  // m
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec2 along = to[(k + 1) % 3] - to[k];
    const double off = -kSure * (std::abs(along.x) + std::abs(along.y));
    if (std::all_of(triangle.begin(), triangle.end(),
                    [&](const Vec3& p) { return cross(along, xy(p) - to[k]) < off; }))
      return true;
  }
  return false;
}

// The surface's pieces inside triangles on plan, as a soup in which the whole cells of a triangle
// share their nodes.
class PieceSoup {
 public:
  explicit PieceSoup(const Heightfield& ground) : ground_(ground) {}

  void add(const std::array<Vec2, 3>& part) {
    const CellRange r = cells_under(ground_.grid, part);
    const auto wide = static_cast<std::size_t>(std::max(0, r.i1 - r.i0) + 1);
    lower_.assign(wide, kNew);
    upper_.assign(wide, kNew);
    for (int j = r.j0; j < r.j1; ++j) {
      for (int i = r.i0; i < r.i1; ++i) {
        if (holds_cell(part, ground_.grid, i, j))
          add_whole(i, j, static_cast<std::size_t>(i - r.i0));
        else
          add_clipped(part, i, j);
      }
      lower_.swap(upper_);
      std::fill(upper_.begin(), upper_.end(), kNew);
    }
  }
  const Mesh& mesh() const { return soup_; }

 private:
  static constexpr std::uint32_t kNew = 0xFFFFFFFFU;

  std::uint32_t node(std::uint32_t& known, int i, int j) {
    if (known == kNew) {
      known = static_cast<std::uint32_t>(soup_.vertices.size());
      soup_.vertices.push_back(at_height(ground_.grid.node(i, j), ground_.at(i, j)));
    }
    return known;
  }
  void add_whole(int i, int j, std::size_t k) {
    const std::uint32_t a = node(lower_[k], i, j);
    const std::uint32_t b = node(lower_[k + 1], i + 1, j);
    const std::uint32_t d = node(upper_[k], i, j + 1);
    const std::uint32_t c = node(upper_[k + 1], i + 1, j + 1);
    soup_.triangles.push_back({a, b, d});
    soup_.triangles.push_back({c, d, b});
  }
  void add_clipped(const std::array<Vec2, 3>& part, int i, int j) {
    for (const Corner3& t : cell_triangles(ground_, i, j)) {
      if (surely_off(t, part)) continue;
      const std::vector<Vec3> piece = clipped(t, part);
      if (piece.size() < 3) continue;
      const auto first = static_cast<std::uint32_t>(soup_.vertices.size());
      soup_.vertices.insert(soup_.vertices.end(), piece.begin(), piece.end());
      for (std::uint32_t k = 1; k + 1 < piece.size(); ++k)
        soup_.triangles.push_back({first, first + k, first + k + 1});
    }
  }

  const Heightfield& ground_;
  Mesh soup_;
  std::vector<std::uint32_t> lower_, upper_;  // the nodes' vertices along a row of cells
};

}  // namespace

Mesh ground_mesh(const Heightfield& ground) {
  const Grid& g = ground.grid;
  Mesh mesh;
  mesh.vertices.reserve(g.size());
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i)
      mesh.vertices.push_back(at_height(g.node(i, j), ground.at(i, j)));
  }
  mesh.triangles.reserve(2 * g.size());
  const auto id = [&](int i, int j) { return static_cast<std::uint32_t>(g.index(i, j)); };
  for (int j = 0; j + 1 < g.ny; ++j) {
    for (int i = 0; i + 1 < g.nx; ++i) {
      mesh.triangles.push_back({id(i, j), id(i + 1, j), id(i, j + 1)});
      mesh.triangles.push_back({id(i + 1, j + 1), id(i, j + 1), id(i + 1, j)});
    }
  }
  return mesh;
}

Mesh ground_mesh(const Heightfield& ground, const Polygon& inside) {
  PieceSoup soup(ground);
  for (const auto& part : triangles_of(inside)) soup.add(part);
  return weld(soup.mesh(), 1e-7);
}

SurfaceSums surface_sums(const Heightfield& ground, const Polygon& inside, double base) {
  SurfaceSums sums;
  for (const auto& part : triangles_of(inside)) {
    overlay_with_ground(ground, Convex{{part[0], part[1], part[2]}, 3},
                        [&](const Convex& piece, const Linear& height) {
                          const double plan = area(piece);
                          sums.plan_area_m2 += plan;
                          sums.surface_area_m2 += plan * std::sqrt(1.0 + dot(height.g, height.g));
                          sums.volume_above_m3 += integral(piece, height) - plan * base;
                        });
  }
  return sums;
}

}  // namespace hummock::geom
