#include "engine/leap/places/ground_squares.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;

SquareSampler::SquareSampler(const Model& model, const PlaceRules& rules)
    : model_(model),
      rules_(rules),
      usable_(model, {rules.body, rules.stand_slope, rules.wade_depth, rules.drained}) {
  climbs_earth_ =
      std::find(rules.climbs.begin(), rules.climbs.end(), "earth") != rules.climbs.end();
  lay_lattice(model.ground.grid.cell);
  mark_inside();
  mark_near_things();
  find_steep_triangles();
  find_plans();
  if (coarse_ == 1 && fine_ > 1) find_corner_heights();
}

bool SquareSampler::Plan::holds(Vec2 p) const {
  constexpr double kEdge = 1e-9;  // m, more than a corner on the line may be off
  return p.x >= box.lo.x - kEdge && p.x <= box.hi.x + kEdge && p.y >= box.lo.y - kEdge &&
         p.y <= box.hi.y + kEdge && geom::contains(*outline, p);
}

void SquareSampler::find_plans() {
  for (const House& house : model_.site.houses) {
    houses_.push_back({&house.outline, geom::bounds(house.outline), 0.0});
  }
  for (const Water& water : model_.site.waters) {
    if (water.level && !(rules_.drained && water.drain)) {
      waters_.push_back({&water.outline, geom::bounds(water.outline), *water.level});
    }
  }
}

void SquareSampler::find_corner_heights() {
  const auto width = static_cast<std::size_t>(squares_.nx) + 1;
  corner_z_.resize(width * (static_cast<std::size_t>(squares_.ny) + 1));
  tbb::parallel_for(0, squares_.ny + 1, [&](int j) {
    for (int i = 0; i <= squares_.nx; ++i) {
      corner_z_[static_cast<std::size_t>(j) * width + static_cast<std::size_t>(i)] =
          geom::height_at(model_.ground, in_square(i, j, 0.0, 0.0));
    }
  });
}

void SquareSampler::lay_lattice(double cell) {
  if (cell >= rules_.resolution) {
    fine_ = std::max(1, static_cast<int>(std::ceil(cell / rules_.resolution - 1e-9)));
  } else {
    coarse_ = std::max(1, static_cast<int>(std::floor(rules_.resolution / cell + 1e-9)));
  }
  const geom::Grid& g = model_.ground.grid;
  squares_.x0 = g.x0;
  squares_.y0 = g.y0;
  squares_.side = cell * coarse_ / fine_;
  squares_.nx = (g.nx - 1) * fine_ / coarse_;
  squares_.ny = (g.ny - 1) * fine_ / coarse_;
  const std::size_t n =
      static_cast<std::size_t>(squares_.nx) * static_cast<std::size_t>(squares_.ny);
  squares_.state.assign(n, kOutside);
  squares_.off_centre.resize(static_cast<std::size_t>(squares_.ny));
  inside_.assign(n, 0);
  near_.assign(n, 0);
}

int SquareSampler::column(double x) const {
  return std::clamp(static_cast<int>(std::floor((x - squares_.x0) / squares_.side)), 0,
                    squares_.nx - 1);
}
int SquareSampler::row(double y) const {
  return std::clamp(static_cast<int>(std::floor((y - squares_.y0) / squares_.side)), 0,
                    squares_.ny - 1);
}

Vec2 SquareSampler::point(int i, int j) const {
  for (const auto& [column, p] : squares_.off_centre[static_cast<std::size_t>(j)]) {
    if (column == i) return p;
  }
  return in_square(i, j, 0.5, 0.5);
}

// Middles by the crossings of their row with the outline; squares an edge may touch by their boxes.
void SquareSampler::mark_inside() {
  const Polygon& outline = model_.outline;
  const std::size_t n = outline.size();
  for (int j = 0; j < squares_.ny; ++j) {
    const double y = in_square(0, j, 0.5, 0.5).y;
    std::vector<double> crossings;
    for (std::size_t k = 0; k < n; ++k) {
      const Vec2 a = outline[k];
      const Vec2 b = outline[(k + 1) % n];
      if ((a.y <= y) != (b.y <= y))
        crossings.push_back(a.x + (y - a.y) * (b.x - a.x) / (b.y - a.y));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t k = 0; k + 1 < crossings.size(); k += 2) {
      const int from =
          static_cast<int>(std::ceil((crossings[k] - squares_.x0) / squares_.side - 0.5));
      const int to =
          static_cast<int>(std::floor((crossings[k + 1] - squares_.x0) / squares_.side - 0.5));
      for (int i = std::max(0, from); i <= std::min(squares_.nx - 1, to); ++i) {
        inside_[index(i, j)] = 1;
      }
    }
  }
  for (std::size_t k = 0; k < n; ++k) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[(k + 1) % n];
    const int steps = std::max(1, static_cast<int>(std::ceil(distance(a, b) / squares_.side)));
    for (int s = 0; s < steps; ++s) {
      Box3 piece;
      piece.add(at_height(lerp(a, b, static_cast<double>(s) / steps), 0.0));
      piece.add(at_height(lerp(a, b, (s + 1.0) / steps), 0.0));
      const double edge = squares_.side * 1e-3;
      for (int j = row(piece.lo.y - edge); j <= row(piece.hi.y + edge); ++j) {
        for (int i = column(piece.lo.x - edge); i <= column(piece.hi.x + edge); ++i) {
          inside_[index(i, j)] = 2;
        }
      }
    }
  }
}

void SquareSampler::mark_near_things() {
  const double highest = *std::max_element(model_.ground.z.begin(), model_.ground.z.end());
  const double edge = squares_.side * 1e-3;
  for (const Part& part : model_.parts) {
    const bool buried = part.kind == PartKind::skirt || part.kind == PartKind::apron ||
                        part.kind == PartKind::footing;
    if (!part.blocks_body || buried) continue;
    for (const geom::Triangle& t : part.mesh.triangles) {
      Box3 box;
      for (const auto v : t) box.add(part.mesh.vertices[v]);
      if (!part.closed && box.lo.z > highest + rules_.body.crouch) continue;
      if (box.hi.x < squares_.x0 || box.hi.y < squares_.y0) continue;
      for (int j = row(box.lo.y - edge); j <= row(box.hi.y + edge); ++j) {
        for (int i = column(box.lo.x - edge); i <= column(box.hi.x + edge); ++i) {
          near_[index(i, j)] = 1;
        }
      }
    }
  }
}

void SquareSampler::find_steep_triangles() {
  const geom::Grid& g = model_.ground.grid;
  const double limit = std::tan(rules_.stand_slope) * g.cell;
  const double limit2 = limit * limit;
  triangle_.assign(static_cast<std::size_t>(g.nx - 1) * static_cast<std::size_t>(g.ny - 1), 0);
  for (int j = 0; j + 1 < g.ny; ++j) {
    for (int i = 0; i + 1 < g.nx; ++i) {
      const double a = model_.ground.at(i, j);
      const double b = model_.ground.at(i + 1, j);
      const double c = model_.ground.at(i + 1, j + 1);
      const double d = model_.ground.at(i, j + 1);
      const bool lower = (b - a) * (b - a) + (d - a) * (d - a) > limit2;
      const bool upper = (c - d) * (c - d) + (c - b) * (c - b) > limit2;
      triangle_[static_cast<std::size_t>(j) * static_cast<std::size_t>(g.nx - 1) +
                static_cast<std::size_t>(i)] = static_cast<char>((lower ? 1 : 0) | (upper ? 2 : 0));
    }
  }
}

bool SquareSampler::steep(int i, int j) const {
  const auto flags = [&](int a, int b) {
    return triangle_[static_cast<std::size_t>(b) *
                         static_cast<std::size_t>(model_.ground.grid.nx - 1) +
                     static_cast<std::size_t>(a)];
  };
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

Box3 SquareSampler::cell(int i, int j) const {
  Box3 box;
  const geom::Grid& g = model_.ground.grid;
  if (coarse_ > 1 || fine_ == 1) {
    for (int b = 0; b <= coarse_; ++b) {
      for (int a = 0; a <= coarse_; ++a) {
        const Vec2 p = g.node(i * coarse_ + a, j * coarse_ + b);
        box.add(at_height(p, model_.ground.at(i * coarse_ + a, j * coarse_ + b)));
      }
    }
    return box;
  }
  const auto width = static_cast<std::size_t>(squares_.nx) + 1;
  for (const int b : {j, j + 1}) {
    for (const int a : {i, i + 1}) {
      const std::size_t corner = static_cast<std::size_t>(b) * width + static_cast<std::size_t>(a);
      box.add(at_height(in_square(a, b, 0.0, 0.0), corner_z_[corner]));
    }
  }
  return box;
}

void SquareSampler::sample_all() {
  sample(0, squares_.nx, 0, squares_.ny);
}

void SquareSampler::sample_again(const GroundSquares& before, const std::vector<Box3>& changed) {
  squares_.state = before.state;
  squares_.off_centre = before.off_centre;
  const double reach = 2.0 * squares_.side;
  for (const Box3& box : changed) {
    sample(column(box.lo.x - reach), column(box.hi.x + reach) + 1, row(box.lo.y - reach),
           row(box.hi.y + reach) + 1);
  }
}

void SquareSampler::sample(int i0, int i1, int j0, int j1) {
  tbb::parallel_for(j0, std::max(j0, j1), [&](int j) {
    auto& off_centre = squares_.off_centre[static_cast<std::size_t>(j)];
    std::erase_if(off_centre,
                  [&](const auto& item) { return item.first >= i0 && item.first < i1; });
    for (int i = i0; i < i1; ++i) {
      const Vec2 middle = in_square(i, j, 0.5, 0.5);
      Vec2 p = middle;
      const char state = state_of(i, j, p);
      squares_.state[index(i, j)] = state;
      const bool used = state == kPlace || state == kWater || state == kSteep;
      if (used && !(p == middle)) off_centre.emplace_back(i, p);
    }
    std::sort(off_centre.begin(), off_centre.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
  });
}

char SquareSampler::state_of(int i, int j, Vec2& p) const {
  const char inside = inside_[index(i, j)];
  if (inside == 0) return kOutside;
  if (inside == 2) {
    const std::optional<Vec2> inner = point_inside(i, j);
    if (!inner) return kOutside;
    p = *inner;
  }
  for (const Plan& house : houses_) {
    if (house.holds(p)) return kHouse;
  }
  const bool open_sky = near_[index(i, j)] == 0;
  const bool wet = usable_.in_a_basin(p);
  const double ground = wet ? geom::height_at(model_.ground, p) : 0.0;
  if (wet && usable_.water_depth(p, ground) > rules_.wade_depth) {
    const bool afloat = usable_.being_at(p, ground, open_sky) == usable::Being::afloat;
    return afloat || !rules_.body.swims ? kWater : kCovered;
  }
  if (!climbs_earth_ && steep(i, j) && !crest(p)) return kSteep;
  if (open_sky) return kPlace;
  const std::optional<Vec2> free = find_free(i, j, p);
  if (!free) return kCovered;
  p = *free;
  return kPlace;
}

double SquareSampler::water_level(Vec2 p) const {
  double level = -1e300;
  for (const Plan& water : waters_) {
    if (water.level > level && water.holds(p)) level = water.level;
  }
  return level;
}

// Steep ground on a crest: some way across it neither side rises, and along it the crest is no
// steeper than a perch may be.
bool SquareSampler::crest(Vec2 p) const {
  if (rules_.body.perch > 0.0) return false;
  const double step = model_.ground.grid.cell;
  const double z = geom::height_at(model_.ground, p);
  const double level = step * std::tan(kLevelAcross);
  const double flat = step * std::tan(kNotFlat);
  const auto rise = [&](Vec2 by) {
    const Vec2 q = p + by;
    return geom::covers(model_.ground, q) ? geom::height_at(model_.ground, q) - z : 1e300;
  };
  for (int k = 0; k < 8; ++k) {
    const double angle = geom::kPi * k / 8.0;
    const Vec2 across{step * std::cos(angle), step * std::sin(angle)};
    const double a = rise(across);
    const double b = rise(-across);
    if (a > level || b > level || a + b > -flat) continue;
    const double along = 0.5 * std::abs(rise(geom::left_of(across)) - rise(-geom::left_of(across)));
    if (along <= step * std::tan(kSteepestPerch)) return true;
  }
  return false;
}

// The middle, or of a square cut by the outline the inner sub-point nearest to the middle.
std::optional<Vec2> SquareSampler::point_inside(int i, int j) const {
  const Vec2 middle = in_square(i, j, 0.5, 0.5);
  if (geom::contains(model_.outline, middle)) return middle;
  std::optional<Vec2> best;
  for (int v = 0; v < 4; ++v) {
    for (int u = 0; u < 4; ++u) {
      const Vec2 p = in_square(i, j, 0.125 + 0.25 * u, 0.125 + 0.25 * v);
      if (!geom::contains(model_.outline, p)) continue;
      if (!best || distance(p, middle) < distance(*best, middle)) best = p;
    }
  }
  return best;
}

bool SquareSampler::can_be(Vec2 p) const {
  return usable_.can_be(p, geom::height_at(model_.ground, p));
}

std::optional<Vec2> SquareSampler::find_free(int i, int j, Vec2 first) const {
  if (can_be(first)) return first;
  // Corners first, then the rest of a lattice no coarser than kProbe.
  const int n = std::max(1, static_cast<int>(std::ceil(squares_.side / kProbe)));
  for (int corners = 1; corners >= 0; --corners) {
    for (int b = 0; b <= n; ++b) {
      for (int a = 0; a <= n; ++a) {
        const bool corner = (a == 0 || a == n) && (b == 0 || b == n);
        if (corner != (corners == 1)) continue;
        const Vec2 p = in_square(i, j, 0.05 + 0.9 * a / n, 0.05 + 0.9 * b / n);
        if (geom::contains(model_.outline, p) && can_be(p)) return p;
      }
    }
  }
  return std::nullopt;
}

}  // namespace hummock::leap
