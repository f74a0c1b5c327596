// The vertical section at a station: the ground, the rock and what is buried, in its plane.
#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/dig/stations.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::dig {

namespace {

// Nearest crossing of the ray from p with the polygon's edges, those through p itself excepted.
void limit_by(const geom::Polygon& polygon, Vec2 p, Vec2 direction, double& limit) {
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const Vec2 a = polygon[k];
    const Vec2 e = polygon[(k + 1) % polygon.size()] - a;
    const double det = cross(direction, e);
    if (det == 0.0 || std::abs(cross(e, p - a)) < 1e-9 * geom::length(e)) continue;
    const double t = cross(a - p, e) / det;
    const double s = cross(a - p, direction) / det;
    if (t > 0.0 && s >= 0.0 && s <= 1.0) limit = std::min(limit, t);
  }
}

Vec2 plan_of(const StationPlace& place, double x) {
  return place.plane.at + (x < 0.0 ? outer_inwards(place) : place.plane.inwards) * x;
}

GroundLine along_plane(const geom::Heightfield& ground, const StationPlace& place,
                       const std::vector<double>& xs, double less) {
  GroundLine line;
  line.reserve(xs.size());
  for (const double x : xs) line.push_back({x, geom::height_at(ground, plan_of(place, x)) - less});
  return line;
}

std::vector<double> break_places(const geom::Heightfield& ground, const StationPlace& place,
                                 double inside, double outside) {
  std::vector<double> xs{0.0};
  const Vec2 from = plan_of(place, -outside);
  const Vec2 to = plan_of(place, inside);
  if (!place.folded) {
    for (const double t : geom::ground_breaks(ground, from, to)) {
      xs.push_back(-outside + (inside + outside) * t);
    }
    return xs;
  }
  for (const double t : geom::ground_breaks(ground, from, place.plane.at)) {
    xs.push_back(-outside + outside * t);
  }
  for (const double t : geom::ground_breaks(ground, place.plane.at, to)) xs.push_back(inside * t);
  return xs;
}

void tidy(std::vector<double>& xs) {
  std::sort(xs.begin(), xs.end());
  std::vector<double> kept;
  for (const double x : xs) {
    if (!kept.empty() && x - kept.back() < 1e-9) {
      if (x == 0.0) kept.back() = 0.0;
      continue;
    }
    kept.push_back(x);
  }
  xs = kept;
}

GroundLine negative(GroundLine line) {
  for (Vec2& p : line) p.y = -p.y;
  return line;
}

// A house's footing is not a part of the model: its section, counter-clockwise.
void add_house_footing(const Model& model, const StationPlace& place, VerticalSection& section) {
  const House& house = model.site.houses[static_cast<std::size_t>(place.house)];
  if (!house.footing) return;
  const double top = height_on(section.ground, 0.0);
  const double half = 0.5 * house.footing->width, foot = top - house.footing->depth;
  const Vec2 a{-half, top + half}, b{-half, foot}, c{half, foot}, d{half, top + half};
  for (const auto& [p, q] : {std::pair{a, b}, {b, c}, {c, d}, {d, a}}) {
    section.pieces.push_back({p, q, kFooting});
  }
}

// Rock lies soil_depth below the lower of the surveyed and the finished ground: of the two readings
// of the site file the one that leaves more ways open.
GroundLine rock_under(const Model& model, const StationPlace& place,
                      const std::vector<double>& xs) {
  if (!model.site.ground.soil_depth) return {};
  const GroundLine now = negative(along_plane(model.ground, place, xs, model.snow));
  if (model.surveyed.z.empty()) return lowered(negative(now), *model.site.ground.soil_depth);
  const GroundLine before = negative(along_plane(model.surveyed, place, xs, 0.0));
  return lowered(negative(upper_of(now, before)), *model.site.ground.soil_depth);
}

}  // namespace

Vec2 outer_inwards(const StationPlace& place) {
  return place.folded ? place.out : place.plane.inwards;
}

Limits limits_at(const Model& model, const StationPlace& place) {
  Limits limits{1e9, 1e9};
  limit_by(model.outline, place.plane.at, place.plane.inwards, limits.inside);
  limit_by(model.outline, place.plane.at, -outer_inwards(place), limits.outside);
  if (place.house >= 0) {
    const auto& outline = model.site.houses[static_cast<std::size_t>(place.house)].outline;
    limit_by(outline, place.plane.at, place.plane.inwards, limits.inside);
    limit_by(outline, place.plane.at, -place.plane.inwards, limits.outside);
  }
  return limits;
}

// The model lays a little soil over a footing's top; the fence stands on it all the same. Where
// the plane cuts a footing under the fence line, its panel goes down to the footing.
void stand_on_footing(VerticalSection& section) {
  std::optional<double> top;
  for (const Piece& piece : section.pieces) {
    if (piece.kind != kFooting || std::min(piece.a.x, piece.b.x) > 0.0) continue;
    if (std::max(piece.a.x, piece.b.x) < 0.0 || piece.a.x == piece.b.x) continue;
    const double along = -piece.a.x / (piece.b.x - piece.a.x);
    const double z = lerp(piece.a, piece.b, along).y;
    top = top ? std::max(*top, z) : z;
  }
  const double ground = height_on(section.ground, 0.0);
  if (top && *top < ground) section.pieces.push_back({{0.0, ground}, {0.0, *top}, kPanel});
}

namespace {

// The piece's part on one side of the upright line x = 0.
void keep_half(const Piece& piece, bool inside, std::vector<Piece>& kept) {
  constexpr double kOnLine = 1e-9;  // m
  const double sign = inside ? 1.0 : -1.0;
  Piece p = piece;
  const double a = sign * p.a.x, b = sign * p.b.x;
  if (std::max(a, b) < -kOnLine) return;
  if (std::min(a, b) < -kOnLine) {
    const Vec2 cut{0.0, p.a.y + (p.b.y - p.a.y) * (a / (a - b))};
    (a < b ? p.a : p.b) = cut;
  }
  kept.push_back(p);
}

std::vector<Piece> cut_folded(const BuriedParts& parts, const StationPlace& place, double inside,
                              double outside, std::uint32_t without) {
  std::vector<Piece> pieces;
  for (const Piece& p : parts.cut(place.plane, 0.0, inside, without | place.without_in)) {
    keep_half(p, true, pieces);
  }
  const CutPlane outer{place.plane.at, place.out};
  for (const Piece& p : parts.cut(outer, -outside, 0.0, without | place.without_out)) {
    keep_half(p, false, pieces);
  }
  return pieces;
}

}  // namespace

VerticalSection section_at(const Model& model, const BuriedParts& parts, const StationPlace& place,
                           double inside, double outside) {
  VerticalSection section;
  std::vector<double> xs = break_places(model.ground, place, inside, outside);
  if (model.site.ground.soil_depth && !model.surveyed.z.empty() &&
      model.surveyed.grid != model.ground.grid) {
    const auto more = break_places(model.surveyed, place, inside, outside);
    xs.insert(xs.end(), more.begin(), more.end());
  }
  tidy(xs);
  section.ground = along_plane(model.ground, place, xs, model.snow);
  section.rock = rock_under(model, place, xs);
  // Nothing runs on under a gate but a footing: a skirt there would be cut through or walked on.
  const std::uint32_t without = place.gateway >= 0 ? kSkirt | kApron : 0U;
  section.pieces = place.folded ? cut_folded(parts, place, inside, outside, without)
                                : parts.cut(place.plane, -outside, inside, without);
  stand_on_footing(section);
  if (place.house >= 0) add_house_footing(model, place, section);
  return section;
}

}  // namespace hummock::dig
