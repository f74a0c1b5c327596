#include "engine/openings/roof_gaps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <queue>

#include "engine/barrier/barrier.h"
#include "geometry/plan/plan_boxes.h"
#include "geometry/plan/polygon.h"

namespace hummock::openings {

namespace {

constexpr double kInwards = 2e-3;  // m: the roof is looked for this far inside the fence line,
                                   // farther than a free edge is from what lies beyond it

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

struct EdgeGap {
  double highest = 0.0;  // m from fence top to roof
  double length = 0.0;   // m of fence with a gap that passes
  Vec3 at;
};

// A roof's triangles, found by plan.
struct RoofFacets {
  const geom::Mesh& mesh;
  geom::PlanBoxes boxes;
};

RoofFacets facets_of(const geom::Mesh& mesh) {
  std::vector<geom::Box2> boxes;
  for (const geom::Triangle& t : mesh.triangles) {
    geom::Box2& box = boxes.emplace_back();
    for (const std::uint32_t v : t) box.add(xy(mesh.vertices[v]));
  }
  return {mesh, geom::PlanBoxes(std::move(boxes))};
}

// The roof straight above a piece of a panel: from x to x, m from the panel's a; heights at either.
struct RoofOver {
  double from = 0.0, to = 0.0;
  double z_from = 0.0, z_to = 0.0;
};

// Where the upright plane just inside the panel cuts a facet.
std::optional<RoofOver> facet_over(const geom::Mesh& mesh, const geom::Triangle& facet, Vec2 base,
                                   Vec2 along, double length) {
  std::array<Vec2, 2> ends;  // x and z
  std::size_t n = 0;
  for (std::size_t k = 0; k < 3 && n < 2; ++k) {
    const Vec3 p = mesh.vertices[facet[k]], q = mesh.vertices[facet[(k + 1) % 3]];
    const double dp = cross(along, xy(p) - base), dq = cross(along, xy(q) - base);
    if ((dp >= 0.0) == (dq >= 0.0)) continue;
    const Vec3 at = lerp(p, q, dp / (dp - dq));
    ends[n++] = {dot(along, xy(at) - base), at.z};
  }
  if (n < 2) return std::nullopt;
  if (ends[0].x > ends[1].x) std::swap(ends[0], ends[1]);
  const double from = std::max(ends[0].x, 0.0), to = std::min(ends[1].x, length);
  if (from >= to) return std::nullopt;
  const auto z = [&](double x) {
    const double span = ends[1].x - ends[0].x;
    return ends[0].y + (ends[1].y - ends[0].y) * (x - ends[0].x) / span;
  };
  return RoofOver{from, to, z(from), z(to)};
}

// How much of a stretch over which a height goes straight from p to q is at least `least`.
double share_at_least(double p, double q, double least) {
  if (std::min(p, q) >= least) return 1.0;
  if (std::max(p, q) < least) return 0.0;
  return (std::max(p, q) - least) / std::abs(p - q);
}

// Fence top and roof are straight over each facet: its ends hold the greatest gap.
void widen_by_panel(const Panel& panel, const RoofFacets& roof, double least, EdgeGap& gap) {
  const double length = geom::distance(panel.a, panel.b);
  const Vec2 along = geom::unit(panel.b - panel.a);
  const Vec2 base = panel.a + left_of(along) * kInwards;
  const auto top = [&](double x) { return panel.top_a + (panel.top_b - panel.top_a) * x / length; };
  geom::Box2 about;
  for (const Vec2 end : {base, base + along * length})
    for (const double by : {-kInwards, kInwards}) about.add(end + Vec2{by, by});
  for (const std::size_t facet : roof.boxes.meeting(about)) {
    const auto over = facet_over(roof.mesh, roof.mesh.triangles[facet], base, along, length);
    if (!over) continue;
    const double gap_from = over->z_from - top(over->from), gap_to = over->z_to - top(over->to);
    const double counts = std::max(least, kLeastListed);
    gap.length += (over->to - over->from) * share_at_least(gap_from, gap_to, counts);
    const double highest = std::max(gap_from, gap_to);
    if (highest < kLeastListed || highest <= gap.highest) continue;
    const double x = gap_from >= gap_to ? over->from : over->to;
    gap.highest = highest;
    gap.at = at_height(panel.a + along * x, top(x) + 0.5 * highest);
  }
}

double widest_gap_by_section(const Model& model, const RoofFacets& roof,
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

// A stretch's top where it comes nearest to p on plan.
struct NearTop {
  double distance = 1e300;  // m on plan
  double top = 0.0;         // m above datum
};

NearTop top_near(const barrier::Stretch& s, Vec2 p) {
  const Vec2 d = s.b - s.a;
  const double t = std::clamp(dot(p - s.a, d) / dot(d, d), 0.0, 1.0);
  return {geom::distance(p, lerp(s.a, s.b, t)), s.top_a + (s.top_b - s.top_a) * t};
}

// The tops beside p: of every stretch no farther than the nearest, but for what rounding and a
// turned yard may make of equal distances. Beside a corner and beside a step these are two.
struct TopsBeside {
  std::size_t nearest = 0;  // of the stretches
  double lowest = 1e300, highest = -1e300;
};
constexpr double kAsNear = 1e-3;  // m

TopsBeside tops_beside(const std::vector<barrier::Stretch>& stretches, Vec2 p) {
  std::vector<NearTop> near;
  near.reserve(stretches.size());
  TopsBeside beside;
  for (const barrier::Stretch& s : stretches) {
    near.push_back(top_near(s, p));
    if (near.back().distance < near[beside.nearest].distance) beside.nearest = near.size() - 1;
  }
  for (const NearTop& n : near) {
    if (n.distance > near[beside.nearest].distance + kAsNear) continue;
    beside.lowest = std::min(beside.lowest, n.top);
    beside.highest = std::max(beside.highest, n.top);
  }
  return beside;
}

struct EdgeAbove {
  double height = 0.0;  // m
  Vec3 at;
};

void raise(EdgeAbove& most, Vec2 p, double edge, double fence) {
  if (edge - fence > most.height) most = {edge - fence, at_height(p, 0.5 * (edge + fence))};
}

// Seeks the greatest height along one stretch of the roof's edge. Where the fence beside it is one
// stretch the height goes straight, so the ends hold the greatest; where it changes from one
// stretch to another the place is closed in on until both are beside it.
class AlongEdge {
 public:
  AlongEdge(const std::vector<barrier::Stretch>& fence, const barrier::Stretch& edge,
            EdgeAbove& most)
      : fence_(fence), edge_(edge), most_(most), length_(geom::distance(edge.a, edge.b)) {}

  void run() {
    const std::size_t a = look(0.0), middle = look(0.5), b = look(1.0);
    close_in(0.0, a, 0.5, middle);
    close_in(0.5, middle, 1.0, b);
  }

 private:
  std::size_t look(double t) {
    const Vec2 p = lerp(edge_.a, edge_.b, t);
    const TopsBeside beside = tops_beside(fence_, p);
    raise(most_, p, edge_.top_a + (edge_.top_b - edge_.top_a) * t, beside.lowest);
    return beside.nearest;
  }

  void close_in(double from, std::size_t at_from, double to, std::size_t at_to) {
    if (at_from == at_to || (to - from) * length_ < 0.1 * kAsNear) return;
    const double t = 0.5 * (from + to);
    const std::size_t at = look(t);
    close_in(from, at_from, t, at);
    close_in(t, at, to, at_to);
  }

  const std::vector<barrier::Stretch>& fence_;
  const barrier::Stretch& edge_;
  EdgeAbove& most_;
  double length_;  // m
};

// How far the roof's free edge over the yard lies above the fence beside it: sought along the edge,
// and at the fence's posts, which a corner of the edge may be nearest to.
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
  for (const barrier::Stretch& s : edge) AlongEdge(fence, s, most).run();
  for (const barrier::Stretch& s : fence) {
    raise(most, s.a, tops_beside(edge, s.a).highest, s.top_a);
    raise(most, s.b, tops_beside(edge, s.b).highest, s.top_b);
  }
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
    const double above = widest_gap_by_section(model, facets_of(part.mesh), list);
    if (model.site.roof->outline) add_open_part(model, part, above, list);
  }
}

}  // namespace hummock::openings
