#include "engine/openings/roof_gaps.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <queue>

#include "engine/barrier/barrier.h"
#include "geometry/plan/polygon.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::openings {

namespace {

constexpr double kInwards = 1e-3;  // m: the roof is looked for this far inside the fence line

double free_radius(const Polygon& outer, const std::vector<Polygon>& inner, Vec2 p) {
  double d = geom::distance_to_edges(outer, p);
  bool free = geom::contains(outer, p);
  for (const Polygon& polygon : inner) {
    d = std::min(d, geom::distance_to_edges(polygon, p));
    free = free && !geom::contains(polygon, p);
  }
  return free ? d : -d;
}

struct Cell {
  Vec2 centre;
  double half = 0.0;
  double radius = 0.0;
  double most() const { return radius + half * std::sqrt(2.0); }
  bool operator<(const Cell& other) const { return most() < other.most(); }
};

// Height of the roof over a place, if it covers it.
std::optional<double> roof_over(const geom::RayScene& roof, Vec2 p, double from) {
  constexpr double kBelow = 100.0;  // m: the roof may hang lower than the fence's top
  const geom::Hit hit = roof.first_hit({at_height(p, from - kBelow), {0.0, 0.0, 1.0}, 0.0, 1e4});
  if (!hit) return std::nullopt;
  return from - kBelow + hit.t;
}

struct EdgeGap {
  double highest = 0.0;  // m from fence top to roof
  double length = 0.0;   // m of fence with a gap that passes, or any
  Vec3 at;
};

// Fence top and roof edge are straight between posts: their ends hold the greatest gap, the middle
// is looked at too in case the roof's own outline crosses the panel.
void widen_by_panel(const Panel& panel, const geom::RayScene& roof, double least, EdgeGap& gap) {
  const Vec2 inwards = left_of(geom::unit(panel.b - panel.a));
  constexpr int kSteps = 4;
  double passing = 0.0;
  for (int k = 0; k <= kSteps; ++k) {
    const double t = std::clamp(static_cast<double>(k) / kSteps, 1e-3, 1.0 - 1e-3);
    const double top = panel.top_a + (panel.top_b - panel.top_a) * t;
    const Vec2 p = lerp(panel.a, panel.b, t) + inwards * kInwards;
    const auto z = roof_over(roof, p, top);
    if (!z || *z - top < kLeastListed) continue;
    const double height = *z - top;
    if (height >= least) passing += 1.0 / (kSteps + 1);
    if (height <= gap.highest) continue;
    gap.highest = height;
    gap.at = at_height(lerp(panel.a, panel.b, t), top + 0.5 * height);
  }
  gap.length += passing * geom::distance(panel.a, panel.b);
}

double widest_gap_by_section(const Model& model, const geom::RayScene& roof,
                             std::vector<Opening>& list) {
  const double least = model.site.species.least_opening.value;
  std::vector<EdgeGap> gaps(model.site.boundary.sections.size());
  for (const Panel& panel : model.panels) {
    widen_by_panel(panel, roof, least, gaps[static_cast<std::size_t>(panel.section)]);
  }
  double highest = 0.0;
  for (std::size_t s = 0; s < gaps.size(); ++s) {
    highest = std::max(highest, gaps[s].highest);
    if (gaps[s].highest < kLeastListed) continue;
    Opening o;
    o.what = "roof edge";
    o.thing = model.site.boundary.sections[s].name;
    o.at = gaps[s].at;
    o.ball_m = o.rigid_ball_m = gaps[s].highest;
    o.length_m = gaps[s].length;
    o.passes = o.ball_m >= least;
    list.push_back(o);
  }
  return highest;
}

struct NearTop {
  double distance = 1e300;  // m on plan
  double top = 0.0;         // m above datum
};

// The fence's top, or a roof's edge, where it comes nearest to p on plan.
NearTop nearest_top(const std::vector<barrier::Stretch>& stretches, Vec2 p) {
  NearTop near;
  for (const barrier::Stretch& s : stretches) {
    const Vec2 d = s.b - s.a;
    const double t = std::clamp(dot(p - s.a, d) / dot(d, d), 0.0, 1.0);
    const double off = geom::distance(p, lerp(s.a, s.b, t));
    if (off < near.distance) near = {off, s.top_a + (s.top_b - s.top_a) * t};
  }
  return near;
}

struct EdgeAbove {
  double height = 0.0;  // m
  Vec3 at;
};

void raise(EdgeAbove& most, Vec2 p, double edge, double fence) {
  if (edge - fence > most.height) most = {edge - fence, at_height(p, 0.5 * (edge + fence))};
}

// How far the roof's free edge over the yard lies above the fence beside it. Both are straight
// between their corners, so one of those holds the greatest.
EdgeAbove edge_above_fence(const Model& model) {
  std::vector<barrier::Stretch> fence, edge;
  for (const barrier::Chain& chain : barrier::barrier_of(model).chains) {
    if (chain.kind == barrier::ChainKind::boundary) fence = chain.stretches;
    if (chain.kind != barrier::ChainKind::roof) continue;
    for (const barrier::Stretch& s : chain.stretches) {
      if (s.right.kind != barrier::SpaceKind::outside) edge.push_back(s);
    }
  }
  EdgeAbove most;
  if (fence.empty() || edge.empty()) return most;
  for (const barrier::Stretch& s : edge) {
    raise(most, s.a, s.top_a, nearest_top(fence, s.a).top);
    raise(most, s.b, s.top_b, nearest_top(fence, s.b).top);
  }
  for (const barrier::Stretch& s : fence) raise(most, s.a, nearest_top(edge, s.a).top, s.top_a);
  return most;
}

// Houses that reach up to a roof whose lowest part is at `roof`, but for what the animal does not
// pass: between them and the roof's edge lies a slot.
std::vector<Polygon> houses_up_to(const Model& model, double roof) {
  std::vector<Polygon> outlines;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::house || part.mesh.empty()) continue;
    const double top = geom::bounds(part.mesh).hi.z;
    if (top < roof - model.site.species.least_opening.value) continue;
    outlines.push_back(model.site.houses[static_cast<std::size_t>(part.source)].outline);
  }
  return outlines;
}

void add_open_part(const Model& model, const Part& roof, double above, std::vector<Opening>& list) {
  const Polygon& own = *model.site.roof->outline;
  std::vector<Polygon> closed = houses_up_to(model, geom::bounds(roof.mesh).lo.z);
  closed.push_back(own);
  const geom::Circle circle = largest_circle_between(model.outline, closed, 1e-3);
  const EdgeAbove edge = edge_above_fence(model);
  above = std::max(above, edge.height);
  if (2.0 * circle.radius < kLeastListed && edge.height < kLeastListed) return;
  Opening o;
  o.what = "roof edge";
  o.thing = roof.name;
  o.at = at_height(circle.centre, geom::bounds(roof.mesh).hi.z);
  if (edge.height > 2.0 * circle.radius) o.at = edge.at;
  o.ball_m = std::hypot(2.0 * circle.radius, above);
  o.rigid_ball_m = 2.0 * circle.radius;
  o.passes = o.ball_m >= model.site.species.least_opening.value;
  if (2.0 * circle.radius > kOpenSky) {
    o.passes = false;
    o.note = "a canopy: the open part of the yard is for the leap check to judge";
  }
  list.push_back(o);
}

}  // namespace

geom::Circle largest_circle_between(const Polygon& outer, const std::vector<Polygon>& inner,
                                    double precision) {
  const geom::Box2 box = geom::bounds(outer);
  const double half = 0.25 * std::min(box.hi.x - box.lo.x, box.hi.y - box.lo.y);
  std::priority_queue<Cell> queue;
  const auto push = [&](Vec2 c, double h) { queue.push({c, h, free_radius(outer, inner, c)}); };
  const int columns = static_cast<int>(std::ceil((box.hi.x - box.lo.x) / (2.0 * half)));
  const int rows = static_cast<int>(std::ceil((box.hi.y - box.lo.y) / (2.0 * half)));
  for (int k = 0; k < columns * rows; ++k) {
    const double i = k % columns, j = std::floor(1.0 * k / columns);
    push(box.lo + Vec2{2.0 * i + 1.0, 2.0 * j + 1.0} * half, half);
  }
  geom::Circle best;
  while (!queue.empty()) {
    const Cell cell = queue.top();
    queue.pop();
    if (cell.radius > best.radius) best = {cell.centre, cell.radius};
    if (cell.most() - best.radius <= precision) break;
    const double h = 0.5 * cell.half;
    for (const Vec2 d : {Vec2{-h, -h}, Vec2{h, -h}, Vec2{-h, h}, Vec2{h, h}}) {
      push(cell.centre + d, h);
    }
  }
  return best;
}

void add_roof_gaps(const Model& model, std::vector<Opening>& list) {
  if (!model.site.roof) return;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::roof || part.mesh.empty()) continue;
    geom::RayScene scene;
    scene.add_mesh(part.mesh, 0);
    scene.commit();
    const double above = widest_gap_by_section(model, scene, list);
    if (model.site.roof->outline) add_open_part(model, part, above, list);
  }
}

}  // namespace hummock::openings
