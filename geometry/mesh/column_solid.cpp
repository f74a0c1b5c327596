#include "geometry/mesh/column_solid.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <unordered_set>

#include "geometry/plan/triangulate_cgal.h"

namespace hummock::geom {
namespace {

constexpr double kOnOutline = 1e-6;  // m

std::uint64_t key(std::uint32_t a, std::uint32_t b) {
  return (static_cast<std::uint64_t>(a) << 32U) | b;
}

struct RingPoint {
  int edge = 0;
  double along = 0.0;  // m from the edge's first corner
  std::uint32_t vertex = 0;
};

Polygon counter_clockwise(Polygon polygon) {
  if (signed_area(polygon) < 0.0) std::reverse(polygon.begin(), polygon.end());
  return polygon;
}

// For each edge of the outline the loop's points on it, from corner to corner.
using Chains = std::vector<std::vector<RingPoint>>;

// The loop's place nearest to the outline's corner k, if it lies there.
std::optional<std::size_t> at_corner(const Mesh& sheet, const std::vector<std::uint32_t>& loop,
                                     Vec2 corner) {
  std::size_t best = 0;
  double nearest = 1e300;
  for (std::size_t k = 0; k < loop.size(); ++k) {
    const double d = distance(xy(sheet.vertices[loop[k]]), corner);
    if (d < nearest) {
      nearest = d;
      best = k;
    }
  }
  if (nearest > kOnOutline) return std::nullopt;
  return best;
}

std::optional<Chains> chains_of(const Mesh& sheet, const Polygon& outline) {
  const auto loop = boundary_loop(sheet);
  if (!loop) return std::nullopt;
  Chains chains;
  for (std::size_t e = 0; e < outline.size(); ++e) {
    const Vec2 a = outline[e];
    const Vec2 b = outline[(e + 1) % outline.size()];
    const auto first = at_corner(sheet, *loop, a);
    const auto last = at_corner(sheet, *loop, b);
    if (!first || !last) return std::nullopt;
    std::vector<RingPoint> chain;
    for (std::size_t k = *first;; k = (k + 1) % loop->size()) {
      const Vec2 p = xy(sheet.vertices[(*loop)[k]]);
      if (distance_to_segment(p, a, b) > kOnOutline || chain.size() > loop->size())
        return std::nullopt;
      chain.push_back({static_cast<int>(e), dot(p - a, unit(b - a)), (*loop)[k]});
      if (k == *last && !chain.empty()) break;
    }
    chains.push_back(std::move(chain));
  }
  return chains;
}

// The upright wall between two chains over one edge, as seen from outside: a polygon in (along, z),
// triangulated there so that it never folds. False when the chains meet or cross.
bool append_wall(Mesh& solid, const std::vector<RingPoint>& low, const std::vector<RingPoint>& high,
                 std::uint32_t shift) {
  Polygon flat;
  std::vector<std::uint32_t> vertex;
  const auto add = [&](const RingPoint& p, std::uint32_t v) {
    flat.push_back({p.along, solid.vertices[v].z});
    vertex.push_back(v);
  };
  for (const RingPoint& p : low) add(p, p.vertex);
  for (auto p = high.rbegin(); p != high.rend(); ++p) add(*p, p->vertex + shift);
  // The ends stand upright above one another.
  flat[low.size()].x = flat[low.size() - 1].x;
  flat.back().x = flat.front().x;
  const std::vector<Triangle> triangles = triangulate(flat);
  for (const auto& [a, b, c] : triangles)
    solid.triangles.push_back({vertex[a], vertex[b], vertex[c]});
  return triangles.size() == flat.size() - 2;
}

}  // namespace

std::optional<std::vector<std::uint32_t>> boundary_loop(const Mesh& sheet) {
  std::unordered_set<std::uint64_t> edges;
  for (const Triangle& t : sheet.triangles)
    for (std::size_t k = 0; k < 3; ++k) edges.insert(key(t[k], t[(k + 1) % 3]));
  std::unordered_map<std::uint32_t, std::uint32_t> next;
  std::uint32_t start = 0xFFFFFFFFU;
  for (const Triangle& t : sheet.triangles)
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t a = t[k];
      const std::uint32_t b = t[(k + 1) % 3];
      if (edges.count(key(b, a)) != 0) continue;
      if (!next.emplace(a, b).second) return std::nullopt;
      start = std::min(start, a);
    }
  if (next.empty()) return std::nullopt;
  std::vector<std::uint32_t> loop;
  for (std::uint32_t at = start; loop.empty() || at != start;) {
    loop.push_back(at);
    const auto step = next.find(at);
    if (step == next.end() || loop.size() > next.size()) return std::nullopt;
    at = step->second;
  }
  if (loop.size() != next.size()) return std::nullopt;
  return loop;
}

std::optional<Mesh> solid_between(const Mesh& bottom, const Mesh& top, const Polygon& outline) {
  const Polygon turned = counter_clockwise(outline);
  const auto low = chains_of(bottom, turned);
  const auto high = chains_of(top, turned);
  if (!low || !high) return std::nullopt;
  Mesh solid = bottom;
  flip(solid);
  const auto shift = static_cast<std::uint32_t>(bottom.vertices.size());
  append(solid, top);
  for (std::size_t e = 0; e < turned.size(); ++e)
    if (!append_wall(solid, (*low)[e], (*high)[e], shift)) return std::nullopt;
  return solid;
}

Mesh flat_sheet(const Polygon& outline, double z) {
  Mesh sheet;
  for (const Vec2 p : outline) sheet.vertices.push_back(at_height(p, z));
  sheet.triangles = triangulate(outline);
  return sheet;
}

Mesh prism_on(const Polygon& outline, double lo, double hi) {
  const Polygon turned = counter_clockwise(outline);
  const auto solid = solid_between(flat_sheet(turned, lo), flat_sheet(turned, hi), turned);
  return solid ? *solid : Mesh{};
}

}  // namespace hummock::geom
