#include "engine/leap/places/roof_slots.h"

#include <algorithm>
#include <cmath>

#include "engine/barrier/barrier.h"
#include "engine/brief/given.h"
#include "engine/leap/places/part_faces.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

bool stood_on(const Part& roof, double stand_slope) {
  const double flat = std::cos(stand_slope);
  for (std::size_t t = 0; t < roof.mesh.triangles.size(); ++t) {
    const auto c = corners_of(roof, t);
    if (std::abs(geom::unit(cross(c[1] - c[0], c[2] - c[0])).z) < flat) return false;
  }
  return true;
}

// Rounding at most: a straight rim is cut into many sides.
constexpr double kStraight = 1.0 * geom::kDegree;

// The angle between the two sides at a corner, the smaller of inside and outside, rad.
double angle_at(Vec2 before, Vec2 at, Vec2 after) {
  const Vec2 u = geom::unit(before - at);
  const Vec2 v = geom::unit(after - at);
  return std::acos(std::clamp(dot(u, v), -1.0, 1.0));
}

Vec3 nearest_on(Vec3 a, Vec3 b, Vec3 p) {
  const Vec3 run = b - a;
  const double share = std::clamp(dot(p - a, run) / std::max(dot(run, run), 1e-12), 0.0, 1.0);
  return lerp(a, b, share);
}

}  // namespace

bool is_shelter(const Model& model, const PlaceRules& rules, const Part& roof) {
  if (roof.kind != PartKind::roof || roof.mesh.empty()) return false;
  const double away = std::max(kShelterAway, 2.0 * rules.least_opening);
  for (const Vec3& v : roof.mesh.vertices) {
    if (!geom::contains(model.outline, xy(v))) return false;
  }
  for (const geom::Triangle& t : roof.mesh.triangles) {
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec2 a = xy(roof.mesh.vertices[t[k]]);
      const Vec2 b = xy(roof.mesh.vertices[t[(k + 1) % 3]]);
      const int n = std::max(1, static_cast<int>(std::ceil(geom::distance(a, b) / away * 4.0)));
      for (int i = 0; i <= n; ++i) {
        const Vec2 p = lerp(a, b, static_cast<double>(i) / n);
        if (!geom::contains(model.outline, p)) return false;
        if (geom::distance_to_edges(model.outline, p) < away) return false;
      }
    }
  }
  return stood_on(roof, rules.stand_slope);
}

double slot_opening(const Model& model, const PlaceRules& rules) {
  const auto careful = careful_given(model.site.species.least_opening);
  return std::min(rules.least_opening, careful.value_or(rules.least_opening));
}

RoofSlots::RoofSlots(const Model& model, double least_opening)
    : model_(model), opening_(least_opening) {
  if (!model.site.roof) return;
  const barrier::Barrier barrier = barrier::barrier_of(model);
  geom::Polygon line;
  for (const barrier::Chain& chain : barrier.chains) {
    if (chain.kind != barrier::ChainKind::roof) continue;
    for (const barrier::Stretch& s : chain.stretches) {
      roof_ = s.part;
      rim_.push_back({at_height(s.a, s.top_a), at_height(s.b, s.top_b)});
      line.push_back(s.a);
    }
  }
  take_corners(line);
  take_corners(model.outline);
}

void RoofSlots::take_corners(const geom::Polygon& line) {
  const std::size_t n = line.size();
  for (std::size_t k = 0; k < n; ++k) {
    const double angle = angle_at(line[(k + n - 1) % n], line[k], line[(k + 1) % n]);
    if (angle > geom::kPi - kStraight) continue;
    corners_.push_back({line[k], 2.0 / (1.0 + std::sin(0.5 * angle))});
  }
}

double RoofSlots::wider_near(Vec2 p) const {
  double wider = 1.0;
  for (const Corner& c : corners_) {
    if (geom::distance(c.at, p) <= kNearCorner * opening_) wider = std::max(wider, c.wider);
  }
  return wider;
}

bool RoofSlots::narrow_at_rim(Vec3 p, Vec2 out) const {
  constexpr double kInside = 0.01;  // m, so that what the rim touches is met
  constexpr double kBelow = 5e-3;   // m, so that a top flush with the rim is met
  constexpr double kFan[] = {0.0, 22.5 * geom::kDegree, 45.0 * geom::kDegree, 67.5 * geom::kDegree};
  const double wide = opening_ / wider_near(xy(p));
  const Vec3 from = p - at_height(out, 0.0) * kInside - Vec3{0.0, 0.0, kBelow};
  return std::any_of(std::begin(kFan), std::end(kFan), [&](double down) {
    const Vec3 ray = at_height(out * std::cos(down), -std::sin(down));
    const geom::Hit hit = model_.body_scene->first_hit({from, ray, 0.0, wide + kInside});
    if (!hit || hit.id == kGroundId || hit.id == roof_) return false;
    return distance(from + ray * hit.t, p) < wide;
  });
}

bool RoofSlots::narrow_at_top(Vec3 p, Vec2 in) const {
  const double wide = opening_ / wider_near(xy(p));
  return std::any_of(rim_.begin(), rim_.end(), [&](const Side& side) {
    const Vec3 to = nearest_on(side.a, side.b, p) - p;
    if (length(to) >= wide) return false;
    const Vec2 out = -geom::left_of(geom::unit(xy(side.b) - xy(side.a)));
    constexpr double kAcross = 0.5;  // of the way at least lies straight across
    return dot(out, in) < 0.0 && dot(xy(to), in) >= kAcross * length(xy(to));
  });
}

}  // namespace hummock::leap
