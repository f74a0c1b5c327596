#include <algorithm>
#include <cmath>

#include "engine/dig/section/tunnel_search.h"

namespace hummock::dig {

namespace {

constexpr double kTouch = 1e-8;  // m: a leg this near a node goes through it
constexpr double kWider = 1e-7;  // m, round the box of a leg: more than kTouch

bool lies_before(const std::pair<Vec2, int>& node, double x) {
  return node.first.x < x;
}

}  // namespace

SectionObstacles::SectionObstacles(const BuriedGraph& graph) {
  nodes_.reserve(graph.nodes.size());
  for (std::size_t k = 0; k < graph.nodes.size(); ++k) {
    nodes_.emplace_back(graph.nodes[k].at, static_cast<int>(k));
  }
  std::sort(nodes_.begin(), nodes_.end(), [](const auto& p, const auto& q) {
    return std::pair(p.first.x, p.second) < std::pair(q.first.x, q.second);
  });
  walls_.reserve(graph.edges.size());
  for (const auto& [i, j] : graph.edges) {
    const Vec2 a = graph.nodes[static_cast<std::size_t>(i)].at;
    const Vec2 b = graph.nodes[static_cast<std::size_t>(j)].at;
    walls_.push_back({std::min(a.x, b.x), std::max(a.x, b.x), std::min(a.y, b.y),
                      std::max(a.y, b.y), a, b, i, j});
    widest_ = std::max(widest_, walls_.back().hi_x - walls_.back().lo_x);
  }
  std::sort(walls_.begin(), walls_.end(),
            [](const Wall& p, const Wall& q) { return p.lo_x < q.lo_x; });
}

bool SectionObstacles::crosses_piece(Vec2 p, int node_p, Vec2 q, int node_q) const {
  const Vec2 d = q - p;
  const auto [lo_x, hi_x] = std::minmax(p.x, q.x);
  const auto [lo_y, hi_y] = std::minmax(p.y, q.y);
  auto it = std::lower_bound(walls_.begin(), walls_.end(), lo_x - widest_ - kWider,
                             [](const Wall& w, double x) { return w.lo_x < x; });
  for (; it != walls_.end() && it->lo_x <= hi_x; ++it) {
    const Wall& w = *it;
    if (w.hi_x < lo_x || w.lo_y > hi_y || w.hi_y < lo_y) continue;
    if (w.i == node_p || w.i == node_q || w.j == node_p || w.j == node_q) continue;
    if ((cross(d, w.a - p) > 0.0) == (cross(d, w.b - p) > 0.0)) continue;
    const Vec2 along = w.b - w.a;
    if ((cross(along, p - w.a) > 0.0) != (cross(along, q - w.a) > 0.0)) return true;
  }
  return false;
}

bool SectionObstacles::touches_node(Vec2 p, int node_p, Vec2 q, int node_q) const {
  const Vec2 d = q - p;
  double len = -1.0;  // asked for when a node is near
  const double lo_y = std::min(p.y, q.y) - kWider, hi_y = std::max(p.y, q.y) + kWider;
  const double hi_x = std::max(p.x, q.x) + kWider;
  auto it =
      std::lower_bound(nodes_.begin(), nodes_.end(), std::min(p.x, q.x) - kWider, lies_before);
  for (; it != nodes_.end() && it->first.x <= hi_x; ++it) {
    const auto& [at, node] = *it;
    if (at.y < lo_y || at.y > hi_y || node == node_p || node == node_q) continue;
    if (len < 0.0) len = length(d);
    const Vec2 w = at - p;
    if (std::abs(cross(d, w)) > kTouch * len) continue;
    const double along = dot(d, w) / len;
    if (along > -kTouch && along < len + kTouch) return true;
  }
  return false;
}

bool SectionObstacles::clear(const GroundLine& ground, Vec2 p, int node_p, Vec2 q,
                             int node_q) const {
  const bool apart = std::abs(q.x - p.x) > kSlack || std::abs(q.y - p.y) > kSlack;
  if (!apart && distance(p, q) < kSlack) return true;
  return !crosses_piece(p, node_p, q, node_q) && !touches_node(p, node_p, q, node_q) &&
         stays_below(ground, p, q, kSlack);
}

}  // namespace hummock::dig
