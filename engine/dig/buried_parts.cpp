#include "engine/dig/buried_parts.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace hummock::dig {

namespace {

constexpr double kCell = 0.25;  // m

std::uint32_t buried_kind(PartKind kind) {
  switch (kind) {
    case PartKind::panel:
      return kPanel;
    case PartKind::gate:
      return kGate;
    case PartKind::skirt:
      return kSkirt;
    case PartKind::apron:
      return kApron;
    case PartKind::footing:
      return kFooting;
    default:
      return 0;
  }
}

std::uint64_t cell_key(int i, int j) {
  return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(i)) << 32) |
         static_cast<std::uint32_t>(j);
}

int cell_of(double v) {
  return static_cast<int>(std::floor(v / kCell));
}

// A plane's own axes: x along `inwards`, y up in it, off it to the left.
struct Axes {
  explicit Axes(const CutPlane& p)
      : plane(p), across(left_of(p.inwards)), cos(std::cos(p.lean)), sin(std::sin(p.lean)) {}
  double off(geom::Vec3 p) const {
    const double left = dot(across, xy(p) - plane.at);
    return plane.lean == 0.0 ? left : cos * left + sin * (p.z - plane.level);
  }
  double up(geom::Vec3 p) const {
    if (plane.lean == 0.0) return p.z;
    return plane.level + cos * (p.z - plane.level) - sin * dot(across, xy(p) - plane.at);
  }
  const CutPlane& plane;
  Vec2 across;
  double cos, sin;
};

bool meets(const std::array<geom::Vec3, 3>& corner, const Axes& axes) {
  const bool above = axes.off(corner[0]) >= 0.0;
  return above != (axes.off(corner[1]) >= 0.0) || above != (axes.off(corner[2]) >= 0.0);
}

// The piece in which the plane cuts a triangle that it meets: closed solids on its left.
std::optional<Piece> cut_triangle(const std::array<geom::Vec3, 3>& corner, const Axes& axes,
                                  std::uint32_t kind) {
  const CutPlane& plane = axes.plane;
  std::array<double, 3> off;
  for (std::size_t k = 0; k < 3; ++k) off[k] = axes.off(corner[k]);
  std::array<Vec2, 2> end;
  std::size_t n = 0;
  for (std::size_t k = 0; k < 3 && n < 2; ++k) {
    const std::size_t m = (k + 1) % 3;
    if ((off[k] >= 0.0) == (off[m] >= 0.0)) continue;
    const geom::Vec3 p = lerp(corner[k], corner[m], off[k] / (off[k] - off[m]));
    end[n++] = {dot(plane.inwards, xy(p) - plane.at), axes.up(p)};
  }
  if (n < 2) return std::nullopt;
  const geom::Vec3 normal = cross(corner[1] - corner[0], corner[2] - corner[0]);
  const Vec2 outwards{dot(plane.inwards, xy(normal)),
                      axes.cos * normal.z - axes.sin * dot(axes.across, xy(normal))};
  Piece piece{end[0], end[1], kind};
  if (dot(left_of(piece.b - piece.a), outwards) > 0.0) std::swap(piece.a, piece.b);
  return piece;
}

// The cells the segment runs through: column by column, the rows it spans there.
std::vector<std::uint64_t> cells_along(Vec2 p, Vec2 q) {
  if (p.x > q.x) std::swap(p, q);
  std::vector<std::uint64_t> keys;
  const double slope = q.x > p.x ? (q.y - p.y) / (q.x - p.x) : 0.0;
  // A hair wider all round, so that rounding drops no cell.
  for (int i = cell_of(p.x - 1e-6); i <= cell_of(q.x + 1e-6); ++i) {
    const double x0 = std::clamp(i * kCell, p.x, q.x);
    const double x1 = std::clamp((i + 1) * kCell, p.x, q.x);
    double y0 = p.y + slope * (x0 - p.x), y1 = p.y + slope * (x1 - p.x);
    if (slope == 0.0) y1 = q.y;
    if (y0 > y1) std::swap(y0, y1);
    for (int j = cell_of(y0 - 1e-6); j <= cell_of(y1 + 1e-6); ++j) keys.push_back(cell_key(i, j));
  }
  return keys;
}

// The cells under the part of the plane that is cut, each at least once.
std::vector<std::uint64_t> cells_under(const Axes& axes, double from, double to) {
  const CutPlane& plane = axes.plane;
  const Vec2 a = plane.at + plane.inwards * from, b = plane.at + plane.inwards * to;
  if (plane.lean == 0.0) return cells_along(a, b);
  const auto [lo, hi] = std::minmax({axes.sin * plane.below, -axes.sin * plane.above});
  const int n = std::max(1, static_cast<int>(std::ceil((hi - lo) / kCell)));
  std::vector<std::uint64_t> keys;
  for (int k = 0; k <= n; ++k) {
    const Vec2 aside = axes.across * (lo + (hi - lo) * k / n);
    const auto more =
        cells_along(a - plane.inwards * kCell + aside, b + plane.inwards * kCell + aside);
    keys.insert(keys.end(), more.begin(), more.end());
  }
  std::sort(keys.begin(), keys.end());
  keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
  return keys;
}

}  // namespace

BuriedParts::BuriedParts(const Model& model, std::optional<geom::Heightfield> before_loss)
    : before_loss_(std::move(before_loss)) {
  for (const Part& part : model.parts) {
    const std::uint32_t kind = buried_kind(part.kind);
    if (kind == 0) continue;
    for (const geom::Triangle& t : part.mesh.triangles) {
      Solid solid{{part.mesh.vertices[t[0]], part.mesh.vertices[t[1]], part.mesh.vertices[t[2]]},
                  kind};
      geom::Box3 box;
      for (const geom::Vec3& v : solid.corner) box.add(v);
      const auto index = static_cast<std::uint32_t>(triangles_.size());
      triangles_.push_back(solid);
      for (int i = cell_of(box.lo.x); i <= cell_of(box.hi.x); ++i) {
        for (int j = cell_of(box.lo.y); j <= cell_of(box.hi.y); ++j) {
          cells_[cell_key(i, j)].push_back(index);
        }
      }
    }
  }
  for (const Section& s : model.site.boundary.sections) {
    deepest_ = std::max(
        {deepest_, s.buried, s.apron ? s.apron->depth : 0.0, s.footing ? s.footing->depth : 0.0});
    widest_ = std::max(
        {widest_, s.apron ? s.apron->length : 0.0, s.footing ? 0.5 * s.footing->width : 0.0});
  }
  for (const House& h : model.site.houses) {
    if (h.footing) deepest_ = std::max(deepest_, h.footing->depth);
  }
}

std::vector<Piece> BuriedParts::cut(const CutPlane& plane, double from, double to,
                                    std::uint32_t without) const {
  const Axes axes(plane);
  // Each triangle once, in their order: one may lie in several cells.
  std::vector<std::uint32_t> met;
  for (const std::uint64_t key : cells_under(axes, from, to)) {
    const auto it = cells_.find(key);
    if (it == cells_.end()) continue;
    for (const std::uint32_t index : it->second) {
      const Solid& solid = triangles_[index];
      if ((solid.kind & without) == 0 && meets(solid.corner, axes)) met.push_back(index);
    }
  }
  std::sort(met.begin(), met.end());
  met.erase(std::unique(met.begin(), met.end()), met.end());
  std::vector<Piece> pieces;
  pieces.reserve(met.size());
  for (const std::uint32_t index : met) {
    const Solid& solid = triangles_[index];
    const auto piece = cut_triangle(solid.corner, axes, solid.kind);
    if (!piece || std::max(piece->a.x, piece->b.x) < from) continue;
    if (std::min(piece->a.x, piece->b.x) <= to) pieces.push_back(*piece);
  }
  return pieces;
}

}  // namespace hummock::dig
