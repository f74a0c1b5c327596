#include "engine/draw/plan_shadow.h"

#include <algorithm>
#include <utility>

namespace hummock::draw {
namespace {

using geom::Vec2;
using Side = std::pair<std::uint32_t, std::uint32_t>;  // from, to

// Sides of the triangles in plan, each triangle counter-clockwise; upright ones have none.
std::vector<Side> sides_of(const geom::Mesh& mesh, bool closed) {
  std::vector<Side> sides;
  sides.reserve(3 * mesh.triangles.size());
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vec2 o = geom::xy(mesh.vertices[a]);
    const double area = geom::cross(geom::xy(mesh.vertices[b]) - o, geom::xy(mesh.vertices[c]) - o);
    if (area == 0.0 || (closed && area < 0.0)) continue;
    const Side turned = area > 0.0 ? Side{b, c} : Side{c, b};
    sides.insert(sides.end(), {{a, turned.first}, turned, {turned.second, a}});
  }
  return sides;
}

// What is left when each side is set against one that runs the other way, in order of from, to.
std::vector<Side> rim_of_plan(std::vector<Side> sides) {
  const auto line = [](const Side& s) -> Side { return std::minmax(s.first, s.second); };
  std::sort(sides.begin(), sides.end(), [&](const Side& a, const Side& b) {
    return std::pair(line(a), a) < std::pair(line(b), b);
  });
  std::vector<Side> rim;
  for (std::size_t k = 0; k < sides.size();) {
    std::size_t end = k;
    std::size_t up = 0;  // towards the larger number: they come first
    for (; end < sides.size() && line(sides[end]) == line(sides[k]); ++end)
      up += sides[end].first < sides[end].second ? 1 : 0;
    const std::size_t down = end - k - up;
    const Side& left = up > down ? sides[k] : sides[end - 1];
    rim.insert(rim.end(), std::max(up, down) - std::min(up, down), left);
    k = end;
  }
  std::sort(rim.begin(), rim.end());
  return rim;
}

}  // namespace

std::vector<std::vector<Vec2>> plan_shadow(const geom::Mesh& mesh, bool closed) {
  const std::vector<Side> rim = rim_of_plan(sides_of(mesh, closed));
  std::vector<std::uint32_t> first(mesh.vertices.size() + 1, 0);  // of the sides from each vertex
  for (const Side& s : rim) ++first[s.first + 1];
  for (std::size_t v = 0; v + 1 < first.size(); ++v) first[v + 1] += first[v];
  std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
  std::vector<std::vector<Vec2>> lines;
  for (std::uint32_t start = 0; start < mesh.vertices.size(); ++start) {
    // As many sides come to a vertex as leave it, so a walk ends only where it began.
    while (next[start] < first[start + 1]) {
      std::vector<Vec2> line;
      for (std::uint32_t at = start; next[at] < first[at + 1];) {
        line.push_back(geom::xy(mesh.vertices[at]));
        at = rim[next[at]++].second;
      }
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

}  // namespace hummock::draw
