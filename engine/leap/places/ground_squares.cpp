#include "engine/leap/places/ground_squares.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;

SquareSampler::SquareSampler(const Model& model, const PlaceRules& rules,
                             std::shared_ptr<const GroundSurface> surface)
    : model_(model),
      rules_(rules),
      surface_(std::move(surface)),
      usable_(model, {rules.body, rules.stand_slope, rules.wade_depth, rules.drained}) {
  const Vec2 corner = surface_->at(0, 0, 0.0, 0.0);
  squares_.x0 = corner.x;
  squares_.y0 = corner.y;
  squares_.side = surface_->side();
  squares_.nx = surface_->nx();
  squares_.ny = surface_->ny();
  for (const House& house : model_.site.houses)
    houses_.push_back({&house.outline, geom::bounds(house.outline)});
  for (const Plan& house : houses_) plans_.push_back(geom::widened(house.box, squares_.side));
  for (const Water& water : model_.site.waters)
    plans_.push_back(geom::widened(geom::bounds(water.outline), squares_.side));
}

bool SquareSampler::Plan::holds(Vec2 p) const {
  constexpr double kEdge = 1e-9;  // m, more than a corner on the line may be off
  return p.x >= box.lo.x - kEdge && p.x <= box.hi.x + kEdge && p.y >= box.lo.y - kEdge &&
         p.y <= box.hi.y + kEdge && geom::contains(*outline, p);
}

Vec2 GroundSquares::point(int i, int j) const {
  const auto& row = off_centre[static_cast<std::size_t>(j)];
  const auto it = std::lower_bound(row.begin(), row.end(), i,
                                   [](const auto& item, int at) { return item.first < at; });
  if (it != row.end() && it->first == i) return it->second;
  return {x0 + (i + 0.5) * side, y0 + (j + 0.5) * side};
}

void SquareSampler::mark_near_things(const Range& range) {
  squares_.near.fill(range.i0, range.j0, range.i1 - 1, range.j1 - 1, 0);
  for (const Part& part : model_.parts) {
    const bool buried = part.kind == PartKind::skirt || part.kind == PartKind::apron ||
                        part.kind == PartKind::footing;
    if (part.blocks_body && !buried) mark_near_part(part, range);
  }
}

// A large mesh's tiles on all cores; of neighbours that mark the same squares one is kept.
void SquareSampler::mark_near_part(const Part& part, const Range& range) {
  constexpr std::size_t kTile = 4096;  // triangles; numeric
  const double edge = squares_.side * 1e-3;
  const double too_high =
      part.closed ? 1e300 : surface_->highest() + rules_.body.crouch;  // over every head
  const Vec2 lo = surface_->at(range.i0, range.j0, 0.0, 0.0);
  const Vec2 hi = surface_->at(range.i1, range.j1, 0.0, 0.0);
  const bool all = range.j1 - range.j0 == squares_.ny && range.i1 - range.i0 == squares_.nx;
  const auto outside = [&](const Box3& box) {
    if (all) return box.hi.x < squares_.x0 || box.hi.y < squares_.y0;
    return box.lo.x - edge > hi.x || box.hi.x + edge < lo.x || box.lo.y - edge > hi.y ||
           box.hi.y + edge < lo.y || box.hi.x < squares_.x0 || box.hi.y < squares_.y0;
  };
  if (!all && outside(geom::bounds(part.mesh))) return;
  const std::size_t count = part.mesh.triangles.size();
  std::vector<std::vector<Range>> tiles((count + kTile - 1) / kTile);
  tbb::parallel_for(std::size_t{0}, tiles.size(), [&](std::size_t tile) {
    const std::size_t end = std::min(count, (tile + 1) * kTile);
    for (std::size_t t = tile * kTile; t < end; ++t) {
      Box3 box;
      for (const auto v : part.mesh.triangles[t]) box.add(part.mesh.vertices[v]);
      if (box.lo.z > too_high || outside(box)) continue;
      const Range squares = about(box, range);
      if (squares.i0 >= squares.i1 || squares.j0 >= squares.j1) continue;
      if (tiles[tile].empty() || tiles[tile].back() != squares) tiles[tile].push_back(squares);
    }
  });
  for (const std::vector<Range>& tile : tiles)
    for (const Range& r : tile) squares_.near.fill(r.i0, r.j0, r.i1 - 1, r.j1 - 1, 1);
}

// Of the range, the squares that a box lies over or stands in.
SquareSampler::Range SquareSampler::about(const Box3& box, const Range& range) const {
  const double edge = squares_.side * 1e-3;
  return {std::max(range.i0, column(box.lo.x - edge)),
          std::min(range.i1, column(box.hi.x + edge) + 1), std::max(range.j0, row(box.lo.y - edge)),
          std::min(range.j1, row(box.hi.y + edge) + 1)};
}

void SquareSampler::sample_all(const GroundSquares& known) {
  squares_.state = BlockGrid<char>(squares_.nx, squares_.ny, kOutside);
  squares_.off_centre.resize(static_cast<std::size_t>(squares_.ny));
  squares_.near_crouch = rules_.body.crouch;
  const Range all{0, squares_.nx, 0, squares_.ny};
  // What is near hangs on the model, the lattice, which its side tells, and the crouch.
  if (!known.near.empty() && known.side == squares_.side &&
      known.near_crouch == squares_.near_crouch) {
    squares_.near = known.near;
  } else {
    squares_.near = BlockGrid<char>(squares_.nx, squares_.ny, 0);
    mark_near_things(all);
  }
  sample(all);
}

void SquareSampler::sample_again(const GroundSquares& before, const std::vector<Box3>& changed) {
  squares_ = before;
  const double reach = 2.0 * squares_.side;
  for (const Box3& box : changed) {
    const Range range{column(box.lo.x - reach), column(box.hi.x + reach) + 1, row(box.lo.y - reach),
                      row(box.hi.y + reach) + 1};
    mark_near_things(range);
    sample(range);
  }
}

void SquareSampler::sample(const Range& range) {
  if (range.j0 >= range.j1) return;
  tbb::parallel_for(range.j0 / kBlock, (range.j1 - 1) / kBlock + 1,
                    [&](int bj) { sample_blocks(range, bj); });
}

// Open ground that nothing lies over and no line runs through: a place all of it.
bool SquareSampler::plain(int bi, int bj) const {
  if (!surface_->inside().is_whole(bi, bj, GroundSurface::kWithin) ||
      !squares_.near.is_whole(bi, bj, 0) ||
      (!surface_->climbs_earth() && surface_->any_steep(bi, bj))) {
    return false;
  }
  const Vec2 lo = surface_->at(bi * kBlock, bj * kBlock, 0.0, 0.0);
  const Vec2 hi = surface_->at((bi + 1) * kBlock, (bj + 1) * kBlock, 0.0, 0.0);
  return std::none_of(plans_.begin(), plans_.end(), [&](const geom::Box2& box) {
    return box.lo.x <= hi.x && lo.x <= box.hi.x && box.lo.y <= hi.y && lo.y <= box.hi.y;
  });
}

void SquareSampler::sample_blocks(const Range& range, int bj) {
  const int j0 = std::max(range.j0, bj * kBlock);
  const int j1 = std::min(range.j1, (bj + 1) * kBlock);
  for (int j = j0; j < j1; ++j)
    std::erase_if(squares_.off_centre[static_cast<std::size_t>(j)], [&](const auto& item) {
      return item.first >= range.i0 && item.first < range.i1;
    });
  for (int bi = range.i0 / kBlock; bi <= (range.i1 - 1) / kBlock; ++bi) {
    const int i0 = std::max(range.i0, bi * kBlock);
    const int i1 = std::min(range.i1, (bi + 1) * kBlock);
    if (surface_->inside().is_whole(bi, bj, GroundSurface::kBeyond)) {
      squares_.state.set_block(bi, bj, kOutside);
    } else if (plain(bi, bj)) {
      squares_.state.set_block(bi, bj, kPlace);
    } else {
      for (int j = j0; j < j1; ++j) {
        for (int i = i0; i < i1; ++i) sample_square(i, j);
      }
      squares_.state.join(bi, bj);
    }
  }
  for (int j = j0; j < j1; ++j) {
    auto& off_centre = squares_.off_centre[static_cast<std::size_t>(j)];
    std::sort(off_centre.begin(), off_centre.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
  }
}

void SquareSampler::sample_square(int i, int j) {
  const Vec2 middle = surface_->at(i, j, 0.5, 0.5);
  Vec2 p = middle;
  const char state = state_of(i, j, p);
  squares_.state.set(i, j, state);
  const bool used = state == kPlace || state == kWater || state == kSteep;
  if (used && !(p == middle)) squares_.off_centre[static_cast<std::size_t>(j)].emplace_back(i, p);
}

char SquareSampler::state_of(int i, int j, Vec2& p) const {
  const GroundSurface::Inside inside = surface_->inside(i, j);
  if (inside == GroundSurface::kBeyond) return kOutside;
  if (inside == GroundSurface::kCut) {
    const std::optional<Vec2> inner = point_inside(i, j);
    if (!inner) return kOutside;
    p = *inner;
  }
  for (const Plan& house : houses_) {
    if (house.holds(p)) return kHouse;
  }
  const bool open_sky = !near_things(i, j);
  const bool wet = usable_.in_a_basin(p);
  const double ground = wet ? geom::height_at(model_.ground, p) : 0.0;
  if (wet && usable_.water_depth(p, ground) > rules_.wade_depth) {
    const bool afloat = usable_.being_at(p, ground, open_sky) == usable::Being::afloat;
    return afloat || !rules_.body.swims ? kWater : kCovered;
  }
  if (!surface_->climbs_earth() && surface_->steep(i, j) && !crest(p)) return kSteep;
  if (open_sky) return kPlace;
  const std::optional<Vec2> free = find_free(i, j, p);
  if (!free) return kCovered;
  p = *free;
  return kPlace;
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
  const Vec2 middle = surface_->at(i, j, 0.5, 0.5);
  if (geom::contains(model_.outline, middle)) return middle;
  std::optional<Vec2> best;
  for (int v = 0; v < 4; ++v) {
    for (int u = 0; u < 4; ++u) {
      const Vec2 p = surface_->at(i, j, 0.125 + 0.25 * u, 0.125 + 0.25 * v);
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
        const Vec2 p = surface_->at(i, j, 0.05 + 0.9 * a / n, 0.05 + 0.9 * b / n);
        if (geom::contains(model_.outline, p) && can_be(p)) return p;
      }
    }
  }
  return std::nullopt;
}

}  // namespace hummock::leap
