#include "engine/dig/lean_section.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::dig {

namespace {

constexpr double kSteep = 0.2;  // rise in the half per metre up in it: less is too steep to follow
constexpr double kJump = 1e-5;  // m, wide, between halves that come up at different heights

// A ground, or what lies evenly below it.
struct Layer {
  const geom::Heightfield* ground;
  double less;  // m
  double at(Vec2 p) const { return geom::height_at(*ground, p) - less; }
};

// One half, x from the fence.
struct Half {
  Vec2 at, away, across;
  double level, cos, sin;
  Vec2 plan(Vec2 p) const { return at + away * p.x - across * (sin * (p.y - level)); }
  double gap(const Layer& layer, Vec2 p) const {
    return level + cos * (p.y - level) - layer.at(plan(p));
  }
};

Half half_of(const StationPlace& place, const Lean& lean, bool inside) {
  const Vec2 inwards = inside ? place.plane.inwards : outer_inwards(place);
  const double angle = inside ? lean.inside : lean.outside;
  return {place.plane.at,   inside ? inwards : -inwards,
          left_of(inwards), lean.level,
          std::cos(angle),  std::sin(angle)};
}

// How the layer's line runs in the half about a place.
struct Slope {
  double firm;   // growth of the gap per metre up
  double slope;  // of the line
};

Slope slope_at(const Half& half, const Layer& layer, Vec2 p) {
  const Vec3 normal = geom::normal_at(*layer.ground, half.plan(p));
  const Vec2 rise = xy(normal) * (-1.0 / normal.z);
  const double firm = half.cos + half.sin * dot(rise, half.across);
  return {firm, dot(rise, half.away) / firm};
}

// The height at x = 0: Newton's way, which is exact on the triangle it ends in.
std::optional<double> start_of(const Half& half, const Layer& layer) {
  constexpr double kThere = 1e-11;  // m
  Vec2 p{0.0, half.level};
  for (int round = 0; round < 32; ++round) {
    const double gap = half.gap(layer, p);
    if (std::abs(gap) < kThere) return p.y;
    const Slope run = slope_at(half, layer, p);
    if (run.firm < kSteep) return std::nullopt;
    p.y -= gap / run.firm;
  }
  return std::nullopt;
}

// How far along `d` from p to the next whole number of v = f(p), `ahead` a little farther on.
double to_next(double v, double ahead, double d) {
  if (d == 0.0) return 1e300;
  return ((d > 0.0 ? std::floor(ahead) + 1.0 : std::ceil(ahead) - 1.0) - v) / d;
}

// How far along x the line stays on the triangle it runs on ahead of p.
double rest_of_triangle(const Half& half, const Layer& layer, Vec2 p, Vec2 ahead, double slope) {
  const geom::Grid& g = layer.ground->grid;
  const auto in_cells = [&](Vec2 q) { return Vec2{q.x - g.x0, q.y - g.y0} * (1.0 / g.cell); };
  const Vec2 u = in_cells(half.plan(p)), v = in_cells(half.plan(ahead));
  const Vec2 d = (half.away - half.across * (half.sin * slope)) * (1.0 / g.cell);
  return std::min(
      {to_next(u.x, v.x, d.x), to_next(u.y, v.y, d.y), to_next(u.x + u.y, v.x + v.y, d.x + d.y)});
}

// The layer's line from x = 0 as far as `reach`.
GroundLine followed(const Half& half, const Layer& layer, double y, double reach) {
  constexpr double kAhead = 1e-7;  // m
  GroundLine line{{0.0, y}};
  double slope = 0.0;
  while (line.back().x < reach) {
    const Vec2 p = line.back();
    const Vec2 ahead = p + Vec2{kAhead, kAhead * slope};
    if (!geom::covers(*layer.ground, half.plan(ahead))) break;
    const Slope run = slope_at(half, layer, ahead);
    if (run.firm < kSteep) break;
    slope = run.slope;
    const double on = std::max(rest_of_triangle(half, layer, p, ahead, slope), 10.0 * kAhead);
    const double x = std::min(p.x + on, reach);
    Vec2 next{x, p.y + slope * (x - p.x)};
    next.y -= half.gap(layer, next) / run.firm;
    line.push_back(next);
  }
  return line;
}

void shorten(GroundLine& line, double reach) {
  if (line.back().x <= reach) return;
  const double y = height_on(line, reach);
  while (line.size() > 1 && line.back().x >= reach) line.pop_back();
  line.push_back({reach, y});
}

// Where on plan the line first meets the polygon, the station's own place excepted.
double free_reach(const Half& half, const GroundLine& line, const geom::Polygon& polygon) {
  constexpr double kOff = 1e-6;  // m
  for (std::size_t k = 1; k < line.size(); ++k) {
    Vec2 from = line[k - 1];
    if (k == 1) from = lerp(from, line[k], std::min(1.0, kOff / line[k].x));
    const Vec2 p = half.plan(from), d = half.plan(line[k]) - p;
    double first = 2.0;
    for (std::size_t e = 0; e < polygon.size(); ++e) {
      const Vec2 a = polygon[e], along = polygon[(e + 1) % polygon.size()] - a;
      const double det = cross(d, along);
      if (det == 0.0) continue;
      const double t = cross(a - p, along) / det, s = cross(a - p, d) / det;
      if (t >= 0.0 && t <= 1.0 && s >= 0.0 && s <= 1.0) first = std::min(first, t);
    }
    if (first <= 1.0) return from.x + (line[k].x - from.x) * first;
  }
  return line.back().x;
}

// Does the half come up to the ground beside the station without passing another edge or leaving
// the gate?
bool comes_up_there(const Model& model, const StationPlace& place, const Half& half, double y) {
  const Vec2 up = half.plan({0.0, y});
  if (place.gateway >= 0 && gateway_at(model, up) != place.gateway) return false;
  const double aside = geom::distance(up, place.plane.at);
  if (aside < 1e-9) return true;
  StationPlace sideways = place;
  sideways.folded = false;
  sideways.plane.inwards = (up - place.plane.at) * (1.0 / aside);
  return limits_at(model, sideways).inside > aside;
}

std::optional<GroundLine> bank(const Model& model, const StationPlace& place, const Half& half,
                               double reach) {
  const Layer layer{&model.ground, model.snow};
  const auto y = start_of(half, layer);
  if (!y || !comes_up_there(model, place, half, *y)) return std::nullopt;
  GroundLine line = followed(half, layer, *y, reach);
  shorten(line, free_reach(half, line, model.outline));
  if (place.house >= 0) {
    const auto& house = model.site.houses[static_cast<std::size_t>(place.house)].outline;
    shorten(line, free_reach(half, line, house));
  }
  if (line.back().x < 10.0 * kJump) return std::nullopt;
  return line;
}

// Both halves as one line. Where they come up at different heights the divider is the higher.
GroundLine joined(const GroundLine& outside, const GroundLine& inside) {
  constexpr double kSame = 1e-9;  // m
  GroundLine line;
  const double out = outside.front().y, in = inside.front().y;
  const bool same = std::abs(out - in) < kSame;
  for (std::size_t k = outside.size() - 1; k > 0; --k) {
    if (same || outside[k].x > 2.0 * kJump) line.push_back({-outside[k].x, outside[k].y});
  }
  if (!same && out < in) line.push_back({-kJump, out});
  line.push_back({0.0, same ? in : std::max(out, in)});
  if (!same && in < out) line.push_back({kJump, in});
  for (std::size_t k = 1; k < inside.size(); ++k) {
    if (same || inside[k].x > 2.0 * kJump) line.push_back(inside[k]);
  }
  return line;
}

struct Halves {
  Half inside, outside;
  double reach_in, reach_out;
};

// None when it cannot be followed as far as the ground.
std::optional<GroundLine> below_ground(const Halves& halves, const Layer& layer) {
  const auto in = start_of(halves.inside, layer), out = start_of(halves.outside, layer);
  if (!in || !out) return std::nullopt;
  const GroundLine inside = followed(halves.inside, layer, *in, halves.reach_in);
  const GroundLine outside = followed(halves.outside, layer, *out, halves.reach_out);
  if (inside.back().x < halves.reach_in || outside.back().x < halves.reach_out) {
    return std::nullopt;
  }
  return joined(outside, inside);
}

// Rock as of an upright section (station_section.cpp); false: not to be followed.
bool add_rock(const Model& model, const BuriedParts& parts, const Halves& halves,
              VerticalSection& section) {
  const double soil = *soil_over_rock(model);
  const auto& kept = parts.before_loss();
  const auto finished =
      below_ground(halves, kept ? Layer{&*kept, soil} : Layer{&model.ground, model.snow + soil});
  if (!finished) return false;
  section.rock = *finished;
  if (!model.surveyed.z.empty()) {
    const auto before = below_ground(halves, {&model.surveyed, soil});
    if (!before) return false;
    section.rock = lower_of(section.rock, *before);
  }
  if (!kept) return true;
  const auto now = below_ground(halves, {&model.ground, model.snow + kFilm});
  if (!now) return false;
  section.rock = lower_of(section.rock, *now);
  return true;
}

// Rock, and the depth that is not gone below; false: not to be followed.
bool add_floor(const Model& model, const BuriedParts& parts, const Halves& halves, double max_depth,
               VerticalSection& section) {
  if (soil_over_rock(model) && !add_rock(model, parts, halves, section)) return false;
  if (std::isinf(max_depth)) return true;
  const auto limit = below_ground(halves, {&model.ground, model.snow + max_depth});
  if (!limit) return false;
  section.rock = section.rock.empty() ? *limit : upper_of(*limit, section.rock);
  return true;
}

void cut_buried(const BuriedParts& parts, const StationPlace& place, const Lean& lean,
                const Halves& halves, VerticalSection& section) {
  const auto [low, high] =
      std::minmax_element(section.ground.begin(), section.ground.end(),
                          [](const Vec2& p, const Vec2& q) { return p.y < q.y; });
  constexpr double kDeepening =
      1.5;  // a depth is as long as that in the half at most, but for cliffs
  CutPlane inner{place.plane.at, place.plane.inwards, lean.inside, lean.level};
  inner.below = std::max(0.0, lean.level - low->y + kDeepening * parts.deepest());
  inner.above = std::max(0.0, high->y - lean.level);
  CutPlane outer = inner;
  outer.inwards = outer_inwards(place);
  outer.lean = lean.outside;
  section.pieces = place.folded || !lean.one_plane()
                       ? cut_halves(parts, place, inner, outer, halves.reach_in, halves.reach_out)
                       : parts.cut(inner, -halves.reach_out, halves.reach_in, not_under(place));
}

// A house's footing goes to its depth all along the wall, so it follows the ground there.
bool add_house_footing(const Model& model, const StationPlace& place, const Halves& halves,
                       VerticalSection& section) {
  const auto& footing = model.site.houses[static_cast<std::size_t>(place.house)].footing;
  if (!footing) return true;
  constexpr double kSame = 1e-6;  // m
  const Layer foot{&model.ground, model.snow + footing->depth};
  const auto in = start_of(halves.inside, foot), out = start_of(halves.outside, foot);
  if (!in || !out || std::abs(*in - *out) > kSame) return false;
  add_footing(*footing, *in, section);
  return true;
}

}  // namespace

Vec3 on_lean(const StationPlace& place, const Lean& lean, Vec2 p) {
  const Half half = half_of(place, lean, p.x >= 0.0);
  const Vec2 plan = half.plan({std::abs(p.x), p.y});
  return at_height(plan, half.level + half.cos * (p.y - half.level));
}

std::optional<VerticalSection> lean_section(const Model& model, const BuriedParts& parts,
                                            const StationPlace& place, const Lean& lean,
                                            double inside, double outside, double max_depth) {
  Halves halves{half_of(place, lean, true), half_of(place, lean, false), 0.0, 0.0};
  const auto in = bank(model, place, halves.inside, inside);
  if (!in) return std::nullopt;
  const auto out = bank(model, place, halves.outside, outside);
  if (!out) return std::nullopt;
  halves.reach_in = in->back().x;
  halves.reach_out = out->back().x;
  VerticalSection section;
  section.ground = joined(*out, *in);
  if (!add_floor(model, parts, halves, max_depth, section)) return std::nullopt;
  cut_buried(parts, place, lean, halves, section);
  stand_on_footing(section);
  if (place.house >= 0 && !add_house_footing(model, place, halves, section)) return std::nullopt;
  return section;
}

}  // namespace hummock::dig
