#include "engine/dig/burrow_check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <utility>
#include <vector>

#include "engine/dig/station_tunnels.h"
#include "engine/dig/wider_ground.h"
#include "geometry/plan/polygon.h"

namespace hummock::dig {

namespace {

constexpr double kStep = 0.10;  // m between the points of the path that are looked at

std::vector<Vec2> points_along(const Burrow& burrow) {
  std::vector<Vec2> line{burrow.mouth};
  line.insert(line.end(), burrow.path.begin(), burrow.path.end());
  std::vector<Vec2> points{burrow.mouth};
  for (std::size_t k = 1; k < line.size(); ++k) {
    const double len = geom::distance(line[k - 1], line[k]);
    const int n = std::max(1, static_cast<int>(std::ceil(len / kStep)));
    for (int i = 1; i <= n; ++i) points.push_back(lerp(line[k - 1], line[k], 1.0 * i / n));
  }
  return points;
}

bool leaves(const Model& model, const Burrow& burrow) {
  Vec2 from = burrow.mouth;
  if (!geom::contains(model.outline, from)) return true;
  for (const Vec2& to : burrow.path) {
    if (!geom::contains(model.outline, to)) return true;
    for (std::size_t k = 0; k < model.outline.size(); ++k) {
      const Vec2 a = model.outline[k];
      const Vec2 b = model.outline[(k + 1) % model.outline.size()];
      if (geom::segments_meet(from, to, a, b)) return true;
    }
    from = to;
  }
  return false;
}

struct Past {
  StationPlace place;
  double x = 0.0;  // m from the fence to the point
};

// The way from p past one edge: the plane through p and the edge's nearest point, square to the
// fence or through a corner.
Past past_edge(const Model& model, std::size_t edge, Vec2 p) {
  const Vec2 a = model.outline[edge];
  const Vec2 b = model.outline[(edge + 1) % model.outline.size()];
  const Vec2 d = b - a;
  const Vec2 point = lerp(a, b, std::clamp(dot(p - a, d) / dot(d, d), 0.0, 1.0));
  Past past;
  past.x = geom::distance(p, point);
  past.place.plane.at = point;
  past.place.plane.inwards =
      past.x > 1e-9 ? (p - point) * (1.0 / past.x) : left_of(geom::unit(b - a));
  past.place.gateway = gateway_at(model, point);
  return past;
}

// Past every edge within reach that no other edge lies before; the nearest always.
std::vector<Past> ways_from(const Model& model, Vec2 p, double reach) {
  std::vector<Past> ways;
  const auto nearest = static_cast<std::size_t>(geom::nearest_on_edges(model.outline, p).edge);
  for (std::size_t e = 0; e < model.outline.size(); ++e) {
    Past past = past_edge(model, e, p);
    if (e != nearest && past.x > reach) continue;
    if (e != nearest && limits_at(model, past.place).inside < past.x) continue;
    ways.push_back(past);
  }
  return ways;
}

// Does it run through an apron that lies above its bottom?
bool meets_apron(const Model& model, const BuriedParts& parts, const StationPlace& place, double x,
                 double depth) {
  const VerticalSection s = section_at(model, parts, place, x + 0.05, 0.05);
  const double bottom = height_on(s.ground, x) - depth;
  return std::any_of(s.pieces.begin(), s.pieces.end(), [&](const Piece& p) {
    if (p.kind != kApron && p.kind != kFooting) return false;
    const double lo = std::min(p.a.x, p.b.x), hi = std::max(p.a.x, p.b.x);
    return lo <= x && x <= hi && std::max(p.a.y, p.b.y) >= bottom;
  });
}

// The house through whose footing the burrow runs, empty = none: its plan meets the footing's. Like
// the barrier's, whatever its depth: the burrow is open from the ground down.
std::string footing_met(const Model& model, const Burrow& burrow) {
  for (const House& house : model.site.houses) {
    if (!house.footing) continue;
    const double reach = 0.5 * (house.footing->width + burrow.diameter);
    for (const Vec2& p : points_along(burrow)) {
      if (geom::distance_to_edges(house.outline, p) < reach) return house.name;
    }
  }
  return {};
}

std::string metres(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f m", value);
  return text;
}

}  // namespace

namespace {

constexpr double kAnyDepth = 1e300;  // m

// A place of the burrow from which it may be dug on.
struct Start {
  StationPlace place;
  double near = 0.0;  // m, of its wall from the fence
};

// The nearest first: no tunnel is shorter than the way to the fence, so those farther off than the
// shortest so far need no look.
std::optional<double> least_to_dig(const Model& model, const BuriedParts& parts,
                                   const std::vector<Start>& starts, double bottom,
                                   double dig_depth) {
  constexpr double kRounding = 1.0 + 1e-12;
  std::optional<double> least;
  for (const auto& [place, near] : starts) {
    if (least && near > *least * kRounding) break;
    const Tunnel tunnel = from_burrow(model, parts, place, near, bottom, dig_depth);
    if (tunnel.open && tunnel.length < least.value_or(1e300)) least = tunnel.length;
  }
  return least;
}

}  // namespace

BurrowRow check_burrow(const Model& model, const BuriedParts& parts, const Burrow& burrow) {
  BurrowRow row;
  row.name = burrow.name;
  const double bottom = burrow.depth + 0.5 * burrow.diameter;
  const double dig_depth = model.site.species.dig_depth.value;
  const double dig_length = model.site.species.dig_length.value;
  const double counts = reach_that_counts(model);
  std::vector<Start> starts;
  row.distance_to_barrier_m = std::numeric_limits<double>::infinity();
  bool apron = false;
  for (const Vec2& p : points_along(burrow)) {
    const double reach = counts + parts.widest() + 0.5 * burrow.diameter;
    for (const auto& [place, x] : ways_from(model, p, reach)) {
      const double near = std::max(0.0, x - 0.5 * burrow.diameter);
      row.distance_to_barrier_m = std::min(row.distance_to_barrier_m, near);
      if (near > counts + parts.widest()) continue;  // farther off than any tunnel that counts
      apron = apron || meets_apron(model, parts, place, x, bottom);
      starts.push_back({place, near});
    }
  }
  std::stable_sort(starts.begin(), starts.end(),
                   [](const Start& a, const Start& b) { return a.near < b.near; });
  row.left_to_dig_m = least_to_dig(model, parts, starts, bottom, dig_depth);
  row.left_at_any_depth_m = least_to_dig(model, parts, starts, bottom, kAnyDepth);
  if (leaves(model, burrow)) {
    row.within = false;
    row.left_to_dig_m = row.left_at_any_depth_m = 0.0;
    row.note = "leaves the yard under the barrier";
  } else if (const std::string house = footing_met(model, burrow); !house.empty()) {
    row.within = false;
    row.note = "runs through the footing of " + house;
  } else if (apron) {
    row.within = false;
    row.note = "runs through the apron or the footing";
  } else if (row.left_to_dig_m && dig_length > 0.0 && dig_depth > 0.0 &&
             *row.left_to_dig_m <= dig_length) {
    row.within = false;
    row.note = "leaves only " + metres(*row.left_to_dig_m) + " to dig to the ground outside";
  } else if (row.left_to_dig_m) {
    row.note = metres(*row.left_to_dig_m) + " still to dig to the ground outside";
  } else {
    row.note = "farther from the barrier than the animal digs";
  }
  return row;
}

}  // namespace hummock::dig
