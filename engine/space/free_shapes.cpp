#include "engine/space/free_shapes.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numeric>
#include <utility>

#include "geometry/plan/distance_grid.h"
#include "geometry/plan/free_rectangle.h"
#include "geometry/plan/plan_boxes.h"

namespace hummock::space {
namespace {

constexpr double kPrecision = 0.005;       // m
constexpr double kRectangleSteps = 200.0;  // cells across the outline's longer side
constexpr double kOnLine = 1e-6;           // m

// Points along lines, no farther apart than a cell.
void add_points(const usable::PlanLine& line, double cell, std::vector<Vec2>& points) {
  const int n = std::max(1, static_cast<int>(std::ceil(geom::distance(line.a, line.b) / cell)));
  for (int k = 0; k < n; ++k) points.push_back(lerp(line.a, line.b, (k + 0.5) / n));
}

class CircleSearch {
 public:
  CircleSearch(const ShapesAsked& asked, const usable::Nodes& nodes)
      : outline_(asked.outline), shelters_(asked.shelters), nodes_(nodes), things_(asked.things) {
    std::vector<usable::PlanLine> rim;
    for (std::size_t k = 0; k < outline_.size(); ++k)
      rim.push_back({outline_[k], outline_[(k + 1) % outline_.size()]});
    std::vector<geom::Box2> boxes;
    for (std::size_t k = 0; k < things_.size(); ++k) {
      if (k % kRun == 0) boxes.emplace_back();
      boxes.back().add(things_[k].a);
      boxes.back().add(things_[k].b);
    }
    thing_boxes_ = geom::PlanBoxes(std::move(boxes));
    rim_ = geom::distance_to_marked(nodes.grid, on_lines(rim), geom::Beyond::unmarked);
    taken_ = find_no_ground();
  }

  geom::Circle run() {
    const geom::Grid& g = nodes_.grid;
    const std::vector<double> room = geom::distance_to_marked(g, taken_, geom::Beyond::unmarked);
    std::vector<double> most = std::move(rim_);  // no circle about a node is larger
    for (std::size_t n = 0; n < most.size(); ++n)
      most[n] = nodes_.live[n] == 0 ? 0.0 : std::min(room[n] - 0.5 * g.cell, most[n] + g.cell);
    const std::vector<double> about =
        geom::distance_to_marked(g, on_lines(things_), geom::Beyond::unmarked);
    for (std::size_t n = 0; n < most.size(); ++n) most[n] = std::min(most[n], about[n] + g.cell);
    const geom::Circle best = largest(likely(most, room));
    return best.radius > 0.0 ? refined(best) : best;
  }

  // Ground that is none: nodes inside that hold nothing live, but those on the outline's line or in
  // a shelter, which are left to the lines themselves.
  const std::vector<std::uint8_t>& no_ground() const { return taken_; }

 private:
  std::vector<std::uint8_t> find_no_ground() const {
    const geom::Grid& g = nodes_.grid;
    std::vector<std::uint8_t> out(g.size(), 0);
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i) {
        const std::size_t n = g.index(i, j);
        if (nodes_.inside[n] == 0 || nodes_.live[n] != 0) continue;
        const Vec2 p = g.node(i, j);
        const bool sheltered = std::any_of(shelters_.begin(), shelters_.end(),
                                           [&](const Polygon& s) { return geom::contains(s, p); });
        if (sheltered) continue;
        // Marked points stand a cell apart along the line, and off the node marked for them.
        const bool off_line = rim_[n] > 2.0 * g.cell + kOnLine;
        if (off_line || geom::distance_to_edges(outline_, p) > kOnLine) out[n] = 1;
      }
    return out;
  }

  double from_lines(Vec2 p) const {
    if (!geom::contains(outline_, p)) return 0.0;
    double r = geom::distance_to_edges(outline_, p);
    for (const Polygon& s : shelters_)
      r = std::min(r, geom::contains(s, p) ? 0.0 : geom::distance_to_edges(s, p));
    return r;
  }

  // A node: what a circle about it has at most, and what of that the ground without leaves it.
  struct Candidate {
    double most = 0.0, known = 0.0;  // m
    Vec2 at;
  };

  // The nodes, in order, that may hold a circle as large as the one that promises most does: on a
  // large ground a few of millions.
  std::vector<Candidate> likely(const std::vector<double>& most,
                                const std::vector<double>& room) const {
    const geom::Grid& g = nodes_.grid;
    const auto at = [&](std::size_t n) {
      const auto nx = static_cast<std::size_t>(g.nx);
      return Candidate{most[n], room[n] - 0.5 * g.cell,
                       g.node(static_cast<int>(n % nx), static_cast<int>(n / nx))};
    };
    std::vector<Candidate> all;
    const auto first = std::max_element(most.begin(), most.end());
    if (first == most.end() || !(*first > 0.0)) return all;
    const Candidate top = at(static_cast<std::size_t>(first - most.begin()));
    const double least = room_at(top.at, top.known);
    for (std::size_t n = 0; n < most.size(); ++n)
      if (most[n] > 0.0 && most[n] >= least) all.push_back(at(n));
    return all;
  }

  // The first of the largest in the order given; those that may be large are measured first.
  geom::Circle largest(const std::vector<Candidate>& all) const {
    std::vector<std::size_t> order(all.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return all[a].most > all[b].most; });
    geom::Circle best;
    std::size_t first = all.size();
    for (const std::size_t k : order) {
      if (all[k].most < best.radius) break;
      const double r = room_at(all[k].at, all[k].known);
      if (r < best.radius || (r == best.radius && k > first) || !(r > 0.0)) continue;
      best = {all[k].at, r};
      first = k;
    }
    return best;
  }

  // The nodes nearest to points of the lines: no farther from them than a cell.
  std::vector<std::uint8_t> on_lines(const std::vector<usable::PlanLine>& lines) const {
    const geom::Grid& g = nodes_.grid;
    std::vector<Vec2> points;
    for (const usable::PlanLine& line : lines) add_points(line, g.cell, points);
    std::vector<std::uint8_t> out(g.size(), 0);
    for (const Vec2 p : points) {
      const int i = static_cast<int>(std::lround((p.x - g.x0) / g.cell));
      const int j = static_cast<int>(std::lround((p.y - g.y0) / g.cell));
      if (g.holds(i, j)) out[g.index(i, j)] = 1;
    }
    return out;
  }

  // What the lines leave of a radius: those of things are looked up about p as far as it goes.
  double room_at(Vec2 p, double radius) const {
    radius = std::min(radius, from_lines(p));
    if (!(radius > 0.0)) return radius;
    const Vec2 reach{radius, radius};
    const geom::Box2 about{p - reach, p + reach};
    for (const std::size_t run : thing_boxes_.meeting(about)) {
      const std::size_t end = std::min(things_.size(), (run + 1) * kRun);
      for (std::size_t k = run * kRun; k < end; ++k)
        if (meets(about, things_[k]))
          radius = std::min(radius, geom::distance_to_segment(p, things_[k].a, things_[k].b));
    }
    return radius;
  }

  // Moves the middle by ever smaller steps while the circle grows.
  geom::Circle refined(geom::Circle best) const {
    const geom::Grid& g = nodes_.grid;
    std::vector<Vec2> near;
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i)
        if (taken_[g.index(i, j)] != 0 &&
            geom::distance(g.node(i, j), best.centre) < best.radius + 3.0 * g.cell)
          near.push_back(g.node(i, j));
    const Vec2 start = best.centre;
    for (double step = 0.5 * g.cell; step > 0.5 * kPrecision;) {
      geom::Circle better = best;
      for (int k = 0; k < 8; ++k) {
        const double a = geom::kPi * k / 4.0;
        const Vec2 p = best.centre + Vec2{std::cos(a), std::sin(a)} * step;
        if (geom::distance(p, start) > g.cell) continue;
        double r = room_at(p, 1e300);
        for (const Vec2 q : near) r = std::min(r, geom::distance(p, q) - 0.5 * g.cell);
        if (r > better.radius + 1e-9) better = {p, r};
      }
      if (better.radius > best.radius)
        best = better;
      else
        step *= 0.5;
    }
    return best;
  }

  // Does the line's own box share a point with this one?
  static bool meets(const geom::Box2& box, const usable::PlanLine& line) {
    const auto [x0, x1] = std::minmax(line.a.x, line.b.x);
    const auto [y0, y1] = std::minmax(line.a.y, line.b.y);
    return x0 <= box.hi.x && box.lo.x <= x1 && y0 <= box.hi.y && box.lo.y <= y1;
  }

  // Lines in one box of the tree: those of a thing come one after another.
  static constexpr std::size_t kRun = 16;

  const Polygon& outline_;
  const std::vector<Polygon>& shelters_;
  const usable::Nodes& nodes_;
  const std::vector<usable::PlanLine>& things_;
  geom::PlanBoxes thing_boxes_;
  std::vector<double> rim_;  // m from each node to the nearest that stands for the outline; used up
  std::vector<std::uint8_t> taken_;
};

std::size_t hash_of(Vec2 p) {
  const double x = p.x + 0.0, y = p.y + 0.0;  // one zero, whichever its sign
  std::uint64_t a = 0, b = 0;
  std::memcpy(&a, &x, sizeof a);
  std::memcpy(&b, &y, sizeof b);
  std::uint64_t h = (a ^ (b << 21U) ^ (b >> 43U)) * 0x9E3779B97F4A7C15ULL;
  h = (h ^ (h >> 32U)) * 0xC2B2AE3D27D4EB4FULL;
  return static_cast<std::size_t>(h ^ (h >> 29U));
}

// Keeps the first of equal points: an edge that two faces share brings its own twice, and a square
// taken twice is taken.
void drop_repeats(std::vector<Vec2>& points) {
  constexpr std::uint32_t kFree = 0xFFFFFFFFU;
  std::size_t size = 64;
  while (size < 2 * points.size()) size *= 2;
  std::vector<std::uint32_t> slots(size, kFree);
  std::uint32_t kept = 0;
  for (std::size_t k = 0; k < points.size(); ++k) {
    std::size_t at = hash_of(points[k]) & (size - 1);
    while (slots[at] != kFree && !(points[slots[at]] == points[k])) at = (at + 1) & (size - 1);
    if (slots[at] != kFree) continue;
    slots[at] = kept;
    points[kept++] = points[k];
  }
  points.resize(kept);
}

FreeShapes shapes_in(ShapesAsked asked, const usable::Nodes& nodes) {
  const geom::Box2 box = geom::bounds(asked.outline);
  const double across = std::max(box.hi.x - box.lo.x, box.hi.y - box.lo.y);
  CircleSearch search(asked, nodes);
  geom::Obstacles obstacles{asked.shelters, {}, 0.5 * nodes.grid.cell};
  const std::vector<std::uint8_t>& taken = search.no_ground();
  for (int j = 0; j < nodes.grid.ny; ++j)
    for (int i = 0; i < nodes.grid.nx; ++i)
      if (taken[nodes.grid.index(i, j)] != 0) obstacles.points.push_back(nodes.grid.node(i, j));
  for (const usable::PlanLine& line : asked.things)
    add_points(line, nodes.grid.cell, obstacles.points);
  drop_repeats(obstacles.points);
  const bool open = obstacles.areas.empty() && obstacles.points.empty();
  FreeShapes out;
  out.circle = open ? geom::largest_inscribed_circle(asked.outline, kPrecision) : search.run();
  out.rectangle = geom::large_free_rectangle(asked.outline, obstacles, across / kRectangleSteps);
  out.asked = std::move(asked);
  return out;
}

}  // namespace

std::shared_ptr<const FreeShapes> free_shapes(const Model& model,
                                              const usable::UsableGround& ground,
                                              const usable::Nodes& nodes,
                                              const std::shared_ptr<const FreeShapes>& known) {
  const double tall = ground.body().height;
  ShapesAsked asked{model.outline, ground.shelters(),
                    nodes.grid,    nodes.inside,
                    nodes.live,    usable::thing_lines(model, usable::kSteppedOver * tall, tall)};
  if (known && known->asked == asked) return known;
  return std::make_shared<const FreeShapes>(shapes_in(std::move(asked), nodes));
}

}  // namespace hummock::space
