#include "engine/dig/section/open_ground.h"

#include <algorithm>
#include <cmath>

namespace hummock::dig {

namespace {

constexpr std::size_t kBlock = 16;  // steps looked at together

Vec2 nearest_on(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 d = b - a;
  const double t = dot(p - a, d) / dot(d, d);
  if (t <= 0.0) return a;
  if (t >= 1.0) return b;
  return a + d * t;
}

// Would the point at the end of a step be left for one on the next, which leads on along d? Then
// the tunnel is shortened by sliding its end along the ground, unless a node is met, which is
// another leg.
bool slides_on(Vec2 from, Vec2 end, Vec2 d) {
  constexpr double kSure = 1e-7;  // m
  return dot(from - end, d) > kSure * (std::abs(d.x) + std::abs(d.y));
}

double distance2_to(const geom::Box2& box, Vec2 p) {
  const double dx = std::max({box.lo.x - p.x, 0.0, p.x - box.hi.x});
  const double dy = std::max({box.lo.y - p.y, 0.0, p.y - box.hi.y});
  return dx * dx + dy * dy;
}

// All of the box lies in one cone of useless directions.
bool is_useless(const Sector& s, const geom::Box2& box) {
  const Useless first = is_useless(s, box.lo - s.at);
  return first != Useless::no && is_useless(s, box.hi - s.at) == first &&
         is_useless(s, Vec2{box.lo.x, box.hi.y} - s.at) == first &&
         is_useless(s, Vec2{box.hi.x, box.lo.y} - s.at) == first;
}

}  // namespace

OpenGround::OpenGround(const BuriedGraph& graph, Bank bank) {
  points_.reserve(graph.surface.size() + 1);
  for (const SurfaceStep& step : graph.surface) {
    if (step.covered || step.inside() != (bank == Bank::inside)) continue;
    if (points_.empty() || !(points_.back().at == step.a)) {
      points_.push_back({step.a, false, step.node_a});
    }
    points_.back().step = true;
    points_.push_back({step.b, false, step.node_b});
  }
  for (std::size_t k = 0; k + 1 < points_.size(); k += kBlock) {
    Block block;
    for (std::size_t i = k; i < points_.size() && i <= k + kBlock; ++i) {
      block.box.add(points_[i].at);
    }
    blocks_.push_back(block);
  }
}

void OpenGround::feet_of(const Sector& sector, double limit, std::vector<Foot>& feet) const {
  feet.clear();
  const double limit2 = limit * limit * (1.0 + 1e-12);
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    if (distance2_to(blocks_[b].box, sector.at) > limit2) continue;
    if (!is_useless(sector, blocks_[b].box)) add_feet(sector, limit2, b, feet);
  }
}

bool OpenGround::slides_back(std::size_t k, Vec2 from) const {
  return k > 0 && points_[k - 1].step &&
         slides_on(from, points_[k].at, points_[k - 1].at - points_[k].at);
}

bool OpenGround::slides_forth(std::size_t k, Vec2 from) const {
  return points_[k].step && slides_on(from, points_[k].at, points_[k + 1].at - points_[k].at);
}

// A step both of whose ends are useless in the same way is so all along.
void OpenGround::add_feet(const Sector& sector, double limit2, std::size_t block,
                          std::vector<Foot>& feet) const {
  const std::size_t first = block * kBlock;
  const std::size_t last = std::min(first + kBlock, points_.size() - 1);
  Useless before = is_useless(sector, points_[first].at - sector.at);
  for (std::size_t k = first; k < last; ++k) {
    const Point &p = points_[k], &q = points_[k + 1];
    const Useless now = is_useless(sector, q.at - sector.at);
    const bool skip = !p.step || (now == before && now != Useless::no);
    before = now;
    if (skip) continue;
    const Vec2 at = nearest_on(sector.at, p.at, q.at);
    if (at == p.at && (p.node || slides_back(k, sector.at))) continue;
    if (at == q.at && (q.node || slides_forth(k + 1, sector.at))) continue;
    const Vec2 d = at - sector.at;
    const double distance2 = dot(d, d);
    if (distance2 > limit2 || is_useless(sector, d) != Useless::no) continue;
    feet.push_back({distance2, at});
  }
}

}  // namespace hummock::dig
