#include "engine/dig/section/sectors.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace hummock::dig {

namespace {

constexpr double kTurn = 2.0 * geom::kPi;

Vec2 unit_fast(Vec2 d) {
  return d * (1.0 / std::sqrt(dot(d, d)));
}

struct SurfacePoint {
  Vec2 at;
  int node = -1;
};

// Is one of the points, rising in x, within the weld distance of x?
bool any_at(const std::vector<SurfacePoint>& points, double x) {
  const auto near = [x](const SurfacePoint& p) { return std::abs(p.at.x - x) < kWeldDistance; };
  const auto it = std::lower_bound(points.begin(), points.end(), x,
                                   [](const SurfacePoint& p, double v) { return p.at.x < v; });
  return (it != points.end() && near(*it)) || (it != points.begin() && near(*(it - 1)));
}

// Surface nodes and the ground's points between them, rising in x.
std::vector<SurfacePoint> surface_points(const BuriedGraph& graph, const GroundLine& ground) {
  const auto by_x = [](const SurfacePoint& p, const SurfacePoint& q) { return p.at.x < q.at.x; };
  std::vector<SurfacePoint> own;
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    if (graph.nodes[k].on_surface) own.push_back({graph.nodes[k].at, static_cast<int>(k)});
  }
  std::sort(own.begin(), own.end(), by_x);
  std::vector<SurfacePoint> others, points;
  others.reserve(ground.size());
  for (const Vec2& p : ground) {
    if (!any_at(own, p.x)) others.push_back({p, -1});
  }
  points.reserve(own.size() + others.size());
  std::merge(own.begin(), own.end(), others.begin(), others.end(), std::back_inserter(points),
             by_x);
  return points;
}

// One side of a sector: a piece, or the ground's surface.
struct Arm {
  double angle = 0.0;
  Vec2 direction;
  int node = -1;
  bool open_inside = false, open_outside = false;
  int surface = 0;  // +1: the surface to the right (towards x > 0), -1: to the left
};

Arm surface_arm(const SurfaceStep& step, bool right) {
  const Vec2 d = right ? step.b - step.a : step.a - step.b;
  return {std::atan2(d.y, d.x), unit_fast(d), -1, step.inside(), !step.inside(), right ? 1 : -1};
}

bool is_joined(const BuriedGraph& graph, int a, int b) {
  if (a < 0 || b < 0) return false;
  const auto& next = graph.nodes[static_cast<std::size_t>(a)].next;
  return std::find(next.begin(), next.end(), b) != next.end();
}

void add_sectors(BuriedGraph& graph, int node, std::vector<Arm>& arms) {
  std::sort(arms.begin(), arms.end(), [](const Arm& p, const Arm& q) {
    return std::pair(p.angle, p.node) < std::pair(q.angle, q.node);
  });
  for (std::size_t k = 0; k < arms.size(); ++k) {
    const Arm& from = arms[k];
    const Arm& to = arms[(k + 1) % arms.size()];
    if (from.surface == 1 && to.surface == -1) continue;  // the air
    double width = to.angle - from.angle;
    if (width < 0.0 || arms.size() == 1) width += kTurn;
    Sector s;
    s.node = node;
    s.at = graph.nodes[static_cast<std::size_t>(node)].at;
    s.from = from.angle;
    s.width = width;
    s.first = from.direction;
    s.second = to.direction;
    s.from_node = from.node;
    s.to_node = to.node;
    s.inside = from.open_inside || to.open_inside;
    s.outside = from.open_outside || to.open_outside;
    // No taut tunnel bends where less than a half turn is free.
    if (width > geom::kPi - 1e-6 || s.inside || s.outside) graph.sectors.push_back(s);
  }
}

void take_piece_arms(const BuriedGraph& graph, int node, std::vector<Arm>& arms) {
  arms.clear();
  const BuriedNode& n = graph.nodes[static_cast<std::size_t>(node)];
  for (const int other : n.next) {
    const Vec2 d = graph.nodes[static_cast<std::size_t>(other)].at - n.at;
    Arm arm;
    arm.angle = std::atan2(d.y, d.x);
    arm.direction = unit_fast(d);
    arm.node = other;
    arms.push_back(arm);
  }
}

// Adds the surface's two arms to a surface node, unless a piece lies along it there.
void add_surface_arms(const BuriedGraph& graph, std::vector<Arm>& arms,
                      const std::vector<SurfacePoint>& points, std::size_t at) {
  const auto tag = [&](int other, int side) {
    for (Arm& arm : arms) {
      if (arm.node == other) arm.surface = side;
    }
  };
  const int node = points[at].node;
  if (at == 0) {
    arms.push_back({geom::kPi, {-1.0, 0.0}, -1, false, false, -1});
  } else if (is_joined(graph, node, points[at - 1].node)) {
    tag(points[at - 1].node, -1);
  } else {
    arms.push_back(surface_arm(graph.surface[at - 1], false));
  }
  if (at + 1 == points.size()) {
    arms.push_back({0.0, {1.0, 0.0}, -1, false, false, 1});
  } else if (is_joined(graph, node, points[at + 1].node)) {
    tag(points[at + 1].node, 1);
  } else {
    arms.push_back(surface_arm(graph.surface[at], true));
  }
}

// The ground may be touched all along a leg, as where it runs level to the foot of the fence;
// whether the leg stays below it is asked elsewhere.
bool runs_along(Vec2 surface, Vec2 direction) {
  return dot(surface, direction) > 0.0 && std::abs(cross(surface, direction)) < kSlack;
}

}  // namespace

void add_surface_and_sectors(BuriedGraph& graph, const GroundLine& ground) {
  const std::vector<SurfacePoint> points = surface_points(graph, ground);
  graph.surface.reserve(points.size());
  for (std::size_t k = 0; k + 1 < points.size(); ++k) {
    const SurfacePoint &p = points[k], &q = points[k + 1];
    graph.surface.push_back(
        {p.at, q.at, is_joined(graph, p.node, q.node), p.node >= 0, q.node >= 0});
  }
  std::vector<Arm> arms;
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    if (graph.nodes[k].on_surface) continue;
    take_piece_arms(graph, static_cast<int>(k), arms);
    if (!arms.empty()) add_sectors(graph, static_cast<int>(k), arms);
  }
  for (std::size_t k = 0; k < points.size(); ++k) {
    if (points[k].node < 0) continue;
    take_piece_arms(graph, points[k].node, arms);
    add_surface_arms(graph, arms, points, k);
    add_sectors(graph, points[k].node, arms);
  }
}

bool looks_into(const Sector& sector, Vec2 direction) {
  if (sector.node < 0) return true;
  const bool along_first = sector.from_node < 0 && runs_along(sector.first, direction);
  if (along_first || (sector.to_node < 0 && runs_along(sector.second, direction))) return true;
  double turn = std::atan2(direction.y, direction.x) - sector.from;
  while (turn < 0.0) turn += kTurn;
  while (turn >= kTurn) turn -= kTurn;
  return turn > 0.0 && turn < sector.width;
}

}  // namespace hummock::dig
