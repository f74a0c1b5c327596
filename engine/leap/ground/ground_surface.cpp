#include "engine/leap/ground/ground_surface.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;
using geom::Vec3;

bool GroundSurface::Pool::holds(Vec2 p) const {
  constexpr double kEdge = 1e-9;  // m, more than a corner on the line may be off
  return p.x >= box.lo.x - kEdge && p.x <= box.hi.x + kEdge && p.y >= box.lo.y - kEdge &&
         p.y <= box.hi.y + kEdge && geom::contains(outline, p);
}

GroundSurface::GroundSurface(const Model& model, const PlaceRules& rules)
    : ground_(model.ground),
      climbs_earth_(std::find(rules.climbs.begin(), rules.climbs.end(), "earth") !=
                    rules.climbs.end()) {
  lay_lattice(rules.resolution);
  mark_inside(model.outline);
  mark_cut(model.outline);
  find_steep_triangles(rules.stand_slope);
  highest_ = *std::max_element(ground_.z.begin(), ground_.z.end());
  for (const Water& water : model.site.waters) {
    if (water.level && !(rules.drained && water.drain))
      waters_.push_back({water.outline, geom::bounds(water.outline), *water.level});
  }
}

void GroundSurface::lay_lattice(double resolution) {
  const geom::Grid& g = ground_.grid;
  if (g.cell >= resolution) {
    fine_ = std::max(1, static_cast<int>(std::ceil(g.cell / resolution - 1e-9)));
  } else {
    coarse_ = std::max(1, static_cast<int>(std::floor(resolution / g.cell + 1e-9)));
  }
  x0_ = g.x0;
  y0_ = g.y0;
  side_ = g.cell * coarse_ / fine_;
  nx_ = (g.nx - 1) * fine_ / coarse_;
  ny_ = (g.ny - 1) * fine_ / coarse_;
  inside_ = BlockGrid<char>(nx_, ny_, kBeyond);
}

int GroundSurface::column(double x) const {
  return std::clamp(static_cast<int>(std::floor((x - x0_) / side_)), 0, nx_ - 1);
}
int GroundSurface::row(double y) const {
  return std::clamp(static_cast<int>(std::floor((y - y0_) / side_)), 0, ny_ - 1);
}

void GroundSurface::mark_inside(const geom::Polygon& outline) {
  for (int j = 0; j < ny_; ++j) mark_row(outline, j);
  for (int bj = 0; bj < inside_.up(); ++bj) {
    for (int bi = 0; bi < inside_.across(); ++bi) inside_.join(bi, bj);
  }
}

// Middles by the crossings of their row with the outline.
void GroundSurface::mark_row(const geom::Polygon& outline, int j) {
  const double y = at(0, j, 0.5, 0.5).y;
  std::vector<double> crossings;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[(k + 1) % outline.size()];
    if ((a.y <= y) != (b.y <= y)) crossings.push_back(a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y));
  }
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t k = 0; k + 1 < crossings.size(); k += 2) {
    const int from = std::max(0, static_cast<int>(std::ceil((crossings[k] - x0_) / side_ - 0.5)));
    const int to =
        std::min(nx_ - 1, static_cast<int>(std::floor((crossings[k + 1] - x0_) / side_ - 0.5)));
    if (from <= to) inside_.fill(from, j, to, j, kWithin);
  }
}

// Squares an edge of the outline may touch, by the boxes of its pieces.
void GroundSurface::mark_cut(const geom::Polygon& outline) {
  const double edge = side_ * 1e-3;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[(k + 1) % outline.size()];
    const int steps = std::max(1, static_cast<int>(std::ceil(distance(a, b) / side_)));
    for (int s = 0; s < steps; ++s) {
      Box3 piece;
      piece.add(at_height(lerp(a, b, static_cast<double>(s) / steps), 0.0));
      piece.add(at_height(lerp(a, b, (s + 1.0) / steps), 0.0));
      inside_.fill(column(piece.lo.x - edge), row(piece.lo.y - edge), column(piece.hi.x + edge),
                   row(piece.hi.y + edge), kCut);
    }
  }
}

void GroundSurface::find_steep_triangles(double stand_slope) {
  const geom::Grid& g = ground_.grid;
  const double limit = std::tan(stand_slope) * g.cell;
  const double limit2 = limit * limit;
  triangle_.assign(static_cast<std::size_t>(g.nx - 1) * static_cast<std::size_t>(g.ny - 1), 0);
  for (int j = 0; j + 1 < g.ny; ++j) {
    for (int i = 0; i + 1 < g.nx; ++i) {
      const double a = ground_.at(i, j);
      const double b = ground_.at(i + 1, j);
      const double c = ground_.at(i + 1, j + 1);
      const double d = ground_.at(i, j + 1);
      const bool lower = (b - a) * (b - a) + (d - a) * (d - a) > limit2;
      const bool upper = (c - d) * (c - d) + (c - b) * (c - b) > limit2;
      triangle_[static_cast<std::size_t>(j) * static_cast<std::size_t>(g.nx - 1) +
                static_cast<std::size_t>(i)] = static_cast<char>((lower ? 1 : 0) | (upper ? 2 : 0));
    }
  }
}

bool GroundSurface::steep(int i, int j) const {
  if (coarse_ > 1) {
    for (int b = 0; b < coarse_; ++b) {
      for (int a = 0; a < coarse_; ++a) {
        if (flags(i * coarse_ + a, j * coarse_ + b) != 3) return false;
      }
    }
    return true;
  }
  const char f = flags(i / fine_, j / fine_);
  const int across = i % fine_ + j % fine_;  // the diagonal runs where it is fine_ − 1
  if (across < fine_ - 1) return (f & 1) != 0;
  if (across > fine_ - 1) return (f & 2) != 0;
  return f == 3;
}

bool GroundSurface::any_steep(int bi, int bj) const {
  const auto cell = [&](int square) { return square * coarse_ / fine_; };
  const int x1 = (BlockGrid<char>::last(bi, nx_) + 1) * coarse_ - 1;
  const int y1 = (BlockGrid<char>::last(bj, ny_) + 1) * coarse_ - 1;
  for (int y = cell(bj * kBlock); y <= y1 / fine_; ++y) {
    for (int x = cell(bi * kBlock); x <= x1 / fine_; ++x) {
      if (flags(x, y) != 0) return true;
    }
  }
  return false;
}

double GroundSurface::water_level(Vec2 p) const {
  double level = -1e300;
  for (const Pool& water : waters_) {
    if (water.level > level && water.holds(p)) level = water.level;
  }
  return level;
}

Box3 GroundSurface::cell(int i, int j) const {
  Box3 box;
  if (coarse_ > 1 || fine_ == 1) {
    for (int b = 0; b <= coarse_; ++b) {
      for (int a = 0; a <= coarse_; ++a) {
        const int x = i * coarse_ + a, y = j * coarse_ + b;
        box.add(at_height(ground_.grid.node(x, y), ground_.at(x, y)));
      }
    }
    return box;
  }
  for (const int b : {j, j + 1}) {
    for (const int a : {i, i + 1}) {
      const Vec2 corner = at(a, b, 0.0, 0.0);
      box.add(at_height(corner, height(corner)));
    }
  }
  return box;
}

// A corner is four squares': its height is found once.
std::vector<Box3> GroundSurface::cells(int i0, int j0, int i1, int j1) const {
  std::vector<Box3> out;
  out.reserve(static_cast<std::size_t>(i1 - i0 + 1) * static_cast<std::size_t>(j1 - j0 + 1));
  if (coarse_ > 1 || fine_ == 1) {
    for (int j = j0; j <= j1; ++j)
      for (int i = i0; i <= i1; ++i) out.push_back(cell(i, j));
    return out;
  }
  const Lattice corners = lattice(i0, j0, i1 + 1, j1 + 1, 0.0);
  const std::size_t across = corners.xs.size();
  for (std::size_t b = 0; b + 1 < corners.ys.size(); ++b) {
    for (std::size_t a = 0; a + 1 < across; ++a) {
      Box3 box;
      for (const std::size_t y : {b, b + 1})
        for (const std::size_t x : {a, a + 1})
          box.add(Vec3{corners.xs[x], corners.ys[y], corners.heights[y * across + x]});
      out.push_back(box);
    }
  }
  return out;
}

std::vector<double> GroundSurface::middles(int i0, int j0, int i1, int j1) const {
  return lattice(i0, j0, i1, j1, 0.5).heights;
}

GroundSurface::Lattice GroundSurface::lattice(int i0, int j0, int i1, int j1, double in) const {
  Lattice out;
  for (int i = i0; i <= i1; ++i) out.xs.push_back(at(i, j0, in, in).x);
  for (int j = j0; j <= j1; ++j) out.ys.push_back(at(i0, j, in, in).y);
  out.heights = geom::heights_at(ground_, out.xs, out.ys);
  return out;
}

// The surface is straight between the lines of the ground's cells and their diagonals: its extremes
// lie at nodes, at the corners, and where such lines leave the box, all of them the lattice's
// corners.
Box3 GroundSurface::box(int i0, int j0, int i1, int j1) const {
  constexpr double kRounding = 1e-9;  // m
  Box3 box = cell(i0, j0);
  box.add(cell(i1, j1));
  const auto add = [&](int a, int b) {
    const double z = height(at(a, b, 0.0, 0.0));
    box.lo.z = std::min(box.lo.z, z - kRounding);
    box.hi.z = std::max(box.hi.z, z + kRounding);
  };
  const auto on_a_line = [&](int a, int b) {
    const int x = a % fine_, y = b % fine_;
    return x == 0 || y == 0 || x + y == fine_;
  };
  if (coarse_ == 1 && fine_ > 1) {
    add(i0, j1 + 1);
    add(i1 + 1, j0);
    for (int a = i0; a <= i1 + 1; ++a) {
      for (const int b : {j0, j1 + 1})
        if (on_a_line(a, b)) add(a, b);
    }
    for (int b = j0; b <= j1 + 1; ++b) {
      for (const int a : {i0, i1 + 1})
        if (on_a_line(a, b)) add(a, b);
    }
  }
  const auto first = [&](int a) { return (a * coarse_ + fine_ - 1) / fine_; };
  for (int y = first(j0); y <= (j1 + 1) * coarse_ / fine_; ++y) {
    for (int x = first(i0); x <= (i1 + 1) * coarse_ / fine_; ++x) {
      box.lo.z = std::min(box.lo.z, ground_.at(x, y) - kRounding);
      box.hi.z = std::max(box.hi.z, ground_.at(x, y) + kRounding);
    }
  }
  return box;
}

}  // namespace hummock::leap
