// The vertical section at a station: the ground, the rock and what is buried, in its plane.
#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/dig/stations.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::dig {

namespace {

// Is a point on the line along e? `off`: their cross product. A root is taken of the near ones
// only.
bool on_line(Vec2 e, double off) {
  constexpr double kOnLine = 1e-9;  // m
  constexpr double kRounding = 1.0 + 1e-9;
  if (off * off > kOnLine * kOnLine * dot(e, e) * kRounding) return false;
  return std::abs(off) < kOnLine * geom::length(e);
}

// Nearest crossing of the ray from p with the polygon's edges, those through p itself excepted.
void limit_by(const geom::Polygon& polygon, Vec2 p, Vec2 direction, double& limit) {
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const Vec2 a = polygon[k];
    const Vec2 e = polygon[(k + 1) % polygon.size()] - a;
    const double det = cross(direction, e);
    if (det == 0.0 || on_line(e, cross(e, p - a))) continue;
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

// How far from the fence a section is laid out of what its plane holds.
struct Window {
  double inside, outside;  // m, of the whole
  double near;             // m, at least as far as this is wanted
};

// Where f, straight from `from` to `to`, runs through whole numbers between the shares lo and hi.
void add_whole_crossings(double from, double to, Vec2 shares, std::vector<double>& out) {
  if (from == to) return;
  const auto before = static_cast<std::ptrdiff_t>(out.size());
  const double f = from + (to - from) * shares.x, g = from + (to - from) * shares.y;
  const double first = std::max(std::floor(std::min(from, to)), std::floor(std::min(f, g)) - 1.0);
  const double last = std::min(std::max(from, to), std::max(f, g) + 1.0);
  const int count = std::max(0, static_cast<int>(std::ceil(last - first - 1.0)));
  for (int n = 1; n <= count; ++n) {
    const double t = (first + n - from) / (to - from);
    if (t >= shares.x && t <= shares.y) out.push_back(t);
  }
  if (from > to) std::reverse(out.begin() + before, out.end());
  std::inplace_merge(out.begin(), out.begin() + before, out.end());
}

// geom::ground_breaks between two shares of a→b only, bit for bit.
std::vector<double> breaks_between(const geom::Heightfield& ground, Vec2 a, Vec2 b, Vec2 shares) {
  const geom::Grid& g = ground.grid;
  const Vec2 p = Vec2{a.x - g.x0, a.y - g.y0} * (1.0 / g.cell);
  const Vec2 q = Vec2{b.x - g.x0, b.y - g.y0} * (1.0 / g.cell);
  std::vector<double> t;
  if (shares.x <= 0.0) t.push_back(0.0);
  add_whole_crossings(p.x, q.x, shares, t);
  add_whole_crossings(p.y, q.y, shares, t);
  add_whole_crossings(p.x + p.y, q.x + q.y, shares, t);
  if (shares.y >= 1.0) t.push_back(1.0);
  t.erase(std::unique(t.begin(), t.end(), [](double s, double r) { return r - s < 1e-12; }),
          t.end());
  if (shares.y >= 1.0 && t.back() != 1.0) t.back() = 1.0;
  return t;
}

// The ground's points along the plane: all of them to either side as far as window.near, and at
// least one beyond unless the plane ends before.
std::vector<double> break_places(const geom::Heightfield& ground, const StationPlace& place,
                                 const Window& w) {
  const double wide = w.near + 2.0 * ground.grid.cell;  // the next point is nearer than that
  std::vector<double> xs;
  const Vec2 from = plan_of(place, -w.outside);
  const Vec2 to = plan_of(place, w.inside);
  const double lo = std::max(0.0, w.outside - wide), hi = std::min(w.inside, wide);
  if (!place.folded) {
    const double all = w.inside + w.outside;
    const Vec2 shares{lo / all, hi == w.inside ? 1.0 : (w.outside + hi) / all};
    for (const double t : breaks_between(ground, from, to, shares)) {
      xs.push_back(-w.outside + all * t);
    }
    xs.insert(std::upper_bound(xs.begin(), xs.end(), 0.0), 0.0);
    return xs;
  }
  for (const double t : breaks_between(ground, from, place.plane.at, {lo / w.outside, 1.0})) {
    xs.push_back(-w.outside + w.outside * t);
  }
  xs.push_back(0.0);
  const Vec2 shares{0.0, hi == w.inside ? 1.0 : hi / w.inside};
  for (const double t : breaks_between(ground, place.plane.at, to, shares)) {
    xs.push_back(w.inside * t);
  }
  return xs;
}

void tidy(std::vector<double>& xs) {
  if (!std::is_sorted(xs.begin(), xs.end())) std::sort(xs.begin(), xs.end());
  std::vector<double> kept;
  kept.reserve(xs.size());
  for (const double x : xs) {
    if (!kept.empty() && x - kept.back() < 1e-9) {
      if (x == 0.0) kept.back() = 0.0;
      continue;
    }
    kept.push_back(x);
  }
  xs = kept;
}

void add_house_footing(const Model& model, const StationPlace& place, VerticalSection& section) {
  const House& house = model.site.houses[static_cast<std::size_t>(place.house)];
  if (!house.footing) return;
  add_footing(*house.footing, height_on(section.ground, 0.0) - house.footing->depth, section);
}

// Rock lies soil_depth below the lower of the surveyed and the finished ground: of the two readings
// of the site file the one that leaves more ways open. Where soil was lost down to it a film is
// left, so that the section has a bank on either side.
GroundLine rock_under(const Model& model, const BuriedParts& parts, const StationPlace& place,
                      const std::vector<double>& xs) {
  const auto soil = soil_over_rock(model);
  if (!soil) return {};
  const auto& kept = parts.before_loss();
  GroundLine rock =
      kept ? along_plane(*kept, place, xs, 0.0) : along_plane(model.ground, place, xs, model.snow);
  if (!model.surveyed.z.empty()) rock = lower_of(rock, along_plane(model.surveyed, place, xs, 0.0));
  rock = lowered(rock, *soil);
  if (!kept) return rock;
  return lower_of(rock, lowered(along_plane(model.ground, place, xs, model.snow), kFilm));
}

}  // namespace

std::optional<double> soil_over_rock(const Model& model) {
  return model.site.ground.soil_depth;
}

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

// Counter-clockwise.
void add_footing(const Footing& footing, double foot, VerticalSection& section) {
  const double top = height_on(section.ground, 0.0), half = 0.5 * footing.width;
  const Vec2 a{-half, top + half}, b{-half, foot}, c{half, foot}, d{half, top + half};
  for (const auto& [p, q] : {std::pair{a, b}, {b, c}, {c, d}, {d, a}}) {
    section.pieces.push_back({p, q, kFooting});
  }
}

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

}  // namespace

std::uint32_t not_under(const StationPlace& place) {
  return place.gateway >= 0 ? kSkirt | kApron : 0U;
}

std::vector<Piece> cut_halves(const BuriedParts& parts, const StationPlace& place,
                              const CutPlane& inner, const CutPlane& outer, double inside,
                              double outside) {
  std::vector<Piece> pieces;
  const std::uint32_t without = not_under(place);
  for (const Piece& p : parts.cut(inner, 0.0, inside, without | place.without_in)) {
    keep_half(p, true, pieces);
  }
  for (const Piece& p : parts.cut(outer, -outside, 0.0, without | place.without_out)) {
    keep_half(p, false, pieces);
  }
  return pieces;
}

VerticalSection section_at(const Model& model, const BuriedParts& parts, const StationPlace& place,
                           double inside, double outside, double near) {
  VerticalSection section;
  const Window window{inside, outside, near};
  std::vector<double> xs = break_places(model.ground, place, window);
  if (soil_over_rock(model) && !model.surveyed.z.empty() &&
      model.surveyed.grid != model.ground.grid) {
    const auto more = break_places(model.surveyed, place, window);
    xs.insert(xs.end(), more.begin(), more.end());
  }
  tidy(xs);
  section.ground = along_plane(model.ground, place, xs, model.snow);
  section.rock = rock_under(model, parts, place, xs);
  const double to = inside <= near ? inside : xs.back();
  const double from = outside <= near ? -outside : xs.front();
  const CutPlane outer{place.plane.at, place.out};
  section.pieces = place.folded ? cut_halves(parts, place, place.plane, outer, to, -from)
                                : parts.cut(place.plane, from, to, not_under(place));
  stand_on_footing(section);
  if (place.house >= 0) add_house_footing(model, place, section);
  return section;
}

}  // namespace hummock::dig
