#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/input_error.h"
#include "engine/leap/places.h"
#include "geometry/polygon.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;
using geom::Vec3;

namespace {

// How the squares sit on the ground's cells: `fine` squares a cell side, or `coarse` cells a
// square.
struct Lattice {
  int fine = 1;
  int coarse = 1;
  double side = 0.1;
};

Lattice lattice_for(double cell, double resolution) {
  Lattice l;
  if (cell >= resolution) {
    l.fine = std::max(1, static_cast<int>(std::ceil(cell / resolution - 1e-9)));
  } else {
    l.coarse = std::max(1, static_cast<int>(std::floor(resolution / cell + 1e-9)));
  }
  l.side = cell * l.coarse / l.fine;
  return l;
}

class GroundSampler {
 public:
  GroundSampler(const Model& model, const PlaceRules& rules)
      : model_(model),
        rules_(rules),
        lattice_(lattice_for(model.ground.grid.cell, rules.resolution)) {
    const geom::Grid& g = model.ground.grid;
    squares_.x0 = g.x0;
    squares_.y0 = g.y0;
    squares_.side = lattice_.side;
    squares_.nx = (g.nx - 1) * lattice_.fine / lattice_.coarse;
    squares_.ny = (g.ny - 1) * lattice_.fine / lattice_.coarse;
    squares_.state.assign(size(), kOutside);
    squares_.points.resize(size());
    for (const double z : model.ground.z) highest_ = std::max(highest_, z);
    climbs_earth_ =
        std::find(rules.climbs.begin(), rules.climbs.end(), "earth") != rules.climbs.end();
    mark_near_things();
  }

  void sample_all() { sample(0, squares_.nx, 0, squares_.ny); }

  void sample_again(const GroundPlaces& before, const std::vector<Box3>& changed) {
    squares_.state = before.squares.state;
    squares_.points = before.squares.points;
    for (const Box3& box : changed) {
      const double reach = 2.0 * lattice_.side;
      sample(column(box.lo.x - reach), column(box.hi.x + reach) + 1, row(box.lo.y - reach),
             row(box.hi.y + reach) + 1);
    }
  }

  GroundPlaces finish() {
    GroundPlaces places;
    std::vector<int> piece(size(), 0);
    int pieces = 1;
    if (model_.site.leap_start) pieces = split_by_walking(piece);
    std::vector<std::shared_ptr<Patch>> patches(static_cast<std::size_t>(pieces));
    for (auto& patch : patches) {
      patch = std::make_shared<Patch>();
      patch->kind = PatchKind::ground;
      patch->name = "the ground";
    }
    for (int j = 0; j < squares_.ny; ++j) {
      for (int i = 0; i < squares_.nx; ++i) {
        if (squares_.state[index(i, j)] != kPlace) continue;
        patches[static_cast<std::size_t>(piece[index(i, j)])]->spots.push_back(spot(i, j));
      }
    }
    if (patches[0]->spots.empty()) refuse_no_ground();
    for (auto& patch : patches) {
      build_tree(*patch);
      places.patches.push_back(patch);
    }
    places.squares = std::move(squares_);
    return places;
  }

 private:
  std::size_t size() const {
    return static_cast<std::size_t>(squares_.nx) * static_cast<std::size_t>(squares_.ny);
  }
  std::size_t index(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(squares_.nx) +
           static_cast<std::size_t>(i);
  }
  int column(double x) const {
    return std::clamp(static_cast<int>(std::floor((x - squares_.x0) / squares_.side)), 0,
                      squares_.nx - 1);
  }
  int row(double y) const {
    return std::clamp(static_cast<int>(std::floor((y - squares_.y0) / squares_.side)), 0,
                      squares_.ny - 1);
  }
  Vec2 in_square(int i, int j, double u, double v) const {
    return {squares_.x0 + (i + u) * squares_.side, squares_.y0 + (j + v) * squares_.side};
  }

  // Squares that a thing's faces lie over or stand in: only there are rays needed.
  void mark_near_things() {
    near_.assign(size(), 0);
    for (const Part& part : model_.parts) {
      if (!part.blocks_body) continue;
      for (const geom::Triangle& t : part.mesh.triangles) {
        Box3 box;
        for (const auto v : t) box.add(part.mesh.vertices[v]);
        if (!part.closed && box.lo.z > highest_ + rules_.ability.body) continue;
        mark(box);
      }
    }
  }

  void mark(const Box3& box) {
    const double edge = squares_.side * 1e-3;
    if (box.hi.x < squares_.x0 || box.hi.y < squares_.y0) return;
    for (int j = row(box.lo.y - edge); j <= row(box.hi.y + edge); ++j) {
      for (int i = column(box.lo.x - edge); i <= column(box.hi.x + edge); ++i) {
        near_[index(i, j)] = 1;
      }
    }
  }

  void sample(int i0, int i1, int j0, int j1) {
    tbb::parallel_for(j0, std::max(j0, j1), [&](int j) {
      for (int i = i0; i < i1; ++i) squares_.state[index(i, j)] = state_of(i, j);
    });
  }

  char state_of(int i, int j) {
    const std::optional<Vec2> p = point_inside(i, j);
    if (!p) return kOutside;
    squares_.points[index(i, j)] = *p;
    for (const House& house : model_.site.houses) {
      if (geom::contains(house.outline, *p)) return kHouse;
    }
    for (const Water& water : model_.site.waters) {
      if (water.level && geom::contains(water.outline, *p) &&
          *water.level - geom::height_at(model_.ground, *p) > rules_.wade_depth) {
        return kWater;
      }
    }
    if (!climbs_earth_ && least_slope(i, j) > rules_.stand_slope) return kSteep;
    if (near_[index(i, j)] != 0 && !find_uncovered(i, j)) return kCovered;
    return kPlace;
  }

  // The middle, or of a square cut by the outline the inner sub-point nearest to the middle.
  std::optional<Vec2> point_inside(int i, int j) const {
    const Vec2 middle = in_square(i, j, 0.5, 0.5);
    if (geom::contains(model_.outline, middle)) return middle;
    if (geom::distance_to_edges(model_.outline, middle) > squares_.side) return std::nullopt;
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

  // The flattest triangle of the square.
  double least_slope(int i, int j) const {
    double least = 10.0;
    const double eps = 0.25 * model_.ground.grid.cell / lattice_.fine;
    const double cell = model_.ground.grid.cell;
    for (int b = 0; b < lattice_.coarse; ++b) {
      for (int a = 0; a < lattice_.coarse; ++a) {
        const Vec2 lo{squares_.x0 + i * squares_.side + a * cell,
                      squares_.y0 + j * squares_.side + b * cell};
        const double piece = lattice_.coarse > 1 ? cell : squares_.side;
        least = std::min(least, geom::slope_at(model_.ground, {lo.x + eps, lo.y + eps}));
        least = std::min(least,
                         geom::slope_at(model_.ground, {lo.x + piece - eps, lo.y + piece - eps}));
      }
    }
    return least;
  }

  bool uncovered(Vec2 p) const {
    const Vec3 from = at_height(p, geom::height_at(model_.ground, p) + kLift);
    const geom::Hit hit = model_.body_scene->first_hit({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
    if (!hit || hit.id == kGroundId) return true;
    const bool from_inside =
        model_.parts[static_cast<std::size_t>(hit.id)].closed && hit.normal.z > 0.0;
    return !from_inside && hit.t >= rules_.ability.body;
  }

  bool find_uncovered(int i, int j) {
    if (uncovered(squares_.points[index(i, j)])) return true;
    for (const double v : {0.05, 0.95}) {
      for (const double u : {0.05, 0.95}) {
        const Vec2 p = in_square(i, j, u, v);
        if (!geom::contains(model_.outline, p) || !uncovered(p)) continue;
        squares_.points[index(i, j)] = p;
        return true;
      }
    }
    return false;
  }

  Spot spot(int i, int j) {
    const Vec2 p = squares_.points[index(i, j)];
    Spot spot;
    spot.at = at_height(p, geom::height_at(model_.ground, p) + kLift);
    const geom::Heightfield& ground = model_.ground;
    const int n = lattice_.coarse;
    for (int b = 0; b <= n; ++b) {
      for (int a = 0; a <= n; ++a) {
        const Vec2 corner = in_square(i, j, static_cast<double>(a) / n, static_cast<double>(b) / n);
        spot.cell.add(at_height(corner, geom::height_at(ground, corner)));
      }
    }
    spot.hook = beside_steep(i, j);
    spot.cling = climbs_earth_ && least_slope(i, j) > rules_.stand_slope;
    return spot;
  }

  bool beside_steep(int i, int j) const {
    for (const auto& [di, dj] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
      const int a = i + di;
      const int b = j + dj;
      if (a < 0 || b < 0 || a >= squares_.nx || b >= squares_.ny) continue;
      if (squares_.state[index(a, b)] == kSteep) return true;
    }
    return false;
  }

  bool walkable(int i, int j, int a, int b) {
    if (a < 0 || b < 0 || a >= squares_.nx || b >= squares_.ny) return false;
    if (squares_.state[index(a, b)] != kPlace) return false;
    if (near_[index(i, j)] == 0 && near_[index(a, b)] == 0) return true;
    const Vec3 p = spot(i, j).at;
    const Vec3 q = spot(a, b).at;
    const Vec3 head{0.0, 0.0, std::max(0.0, rules_.ability.body - 2.0 * kLift)};
    const Vec3 foot{0.0, 0.0, 0.02};
    return model_.body_scene->segment_free(p + foot, q + foot) ||
           model_.body_scene->segment_free(p + head, q + head);
  }

  // Numbers the parts one can walk within; the start's part is 0.
  int split_by_walking(std::vector<int>& piece) {
    std::fill(piece.begin(), piece.end(), -1);
    const Vec2 start = *model_.site.leap_start;
    require_start(start);
    int pieces = 0;
    flood(column(start.x), row(start.y), pieces++, piece);
    for (int j = 0; j < squares_.ny; ++j) {
      for (int i = 0; i < squares_.nx; ++i) {
        if (squares_.state[index(i, j)] == kPlace && piece[index(i, j)] < 0) {
          flood(i, j, pieces++, piece);
        }
      }
    }
    return pieces;
  }

  void flood(int i, int j, int number, std::vector<int>& piece) {
    std::vector<std::pair<int, int>> open{{i, j}};
    piece[index(i, j)] = number;
    while (!open.empty()) {
      const auto [x, y] = open.back();
      open.pop_back();
      for (const auto& [a, b] : {std::pair{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}}) {
        if (!walkable(x, y, a, b) || piece[index(a, b)] >= 0) continue;
        piece[index(a, b)] = number;
        open.emplace_back(a, b);
      }
    }
  }

  void require_start(Vec2 start) const {
    const Where where{model_.site.file.string(), 0, "leap.start"};
    const Vec2 told = model_.to_site(start);
    const std::string found = "[" + std::to_string(told.x) + ", " + std::to_string(told.y) + "]";
    if (!geom::contains(model_.outline, start)) {
      throw InputError(where, found + ", outside the boundary", "a point inside the outline");
    }
    if (squares_.state[index(column(start.x), row(start.y))] != kPlace) {
      throw InputError(where, found + ", where the animal cannot stand",
                       "open ground it can stand on, not in a house, solid or deep water");
    }
  }

  [[noreturn]] void refuse_no_ground() const {
    Where where = model_.site.boundary.where;
    if (where.key.empty()) where.key = "boundary";
    throw InputError(where, "no ground the animal can live on inside the outline",
                     "some ground no steeper than stand_slope that no house, solid or deep water "
                     "covers");
  }

  const Model& model_;
  const PlaceRules& rules_;
  Lattice lattice_;
  GroundSquares squares_;
  std::vector<char> near_;
  double highest_ = -1e300;
  bool climbs_earth_ = false;
};

}  // namespace

GroundPlaces ground_places(const Model& model, const PlaceRules& rules) {
  GroundSampler sampler(model, rules);
  sampler.sample_all();
  return sampler.finish();
}

GroundPlaces ground_places_again(const Model& model, const PlaceRules& rules,
                                 const GroundPlaces& before, const std::vector<Box3>& changed) {
  GroundSampler sampler(model, rules);
  sampler.sample_again(before, changed);
  return sampler.finish();
}

}  // namespace hummock::leap
