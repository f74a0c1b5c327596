#include "engine/entry/gate_swing.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/entry/entry.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

using Ring = std::vector<Vec3>;

// The part of a convex ring where height(v) >= 0; `height` is linear.
template <class Height>
Ring clipped(const Ring& ring, Height height) {
  Ring out;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Vec3 p = ring[k], q = ring[(k + 1) % ring.size()];
    const double hp = height(p), hq = height(q);
    if (hp >= 0.0) out.push_back(p);
    if ((hp >= 0.0) != (hq >= 0.0)) out.push_back(lerp(p, q, hp / (hp - hq)));
  }
  return out;
}

// The swing's own plan coordinates: x along the shut leaf, y the way it opens.
Vec3 seen_from_hinge(const Swing& swing, Vec3 p) {
  const Vec2 w = xy(p) - swing.hinge;
  return {dot(w, swing.along), dot(w, swing.towards), p.z};
}

bool may_stand_in_the_way(const Part& part) {
  if (!part.blocks_body) return false;
  return part.kind != PartKind::post && part.kind != PartKind::ground &&
         part.kind != PartKind::skirt && part.kind != PartKind::apron &&
         part.kind != PartKind::footing && part.kind != PartKind::water;
}

bool boxes_meet(const geom::Box3& box, const Swing& swing) {
  const double r = swing.radius;
  return box.lo.x < swing.hinge.x + r && box.hi.x > swing.hinge.x - r &&
         box.lo.y < swing.hinge.y + r && box.hi.y > swing.hinge.y - r && box.lo.z < swing.top &&
         box.hi.z > swing.foot;
}

// Is the point inside the closed mesh? Crossings of the ray upwards.
bool holds(const geom::Mesh& mesh, Vec3 p) {
  bool inside = false;
  for (const geom::Triangle& t : mesh.triangles) {
    const Vec3 a = mesh.vertices[t[0]], b = mesh.vertices[t[1]], c = mesh.vertices[t[2]];
    const double area = cross(xy(b) - xy(a), xy(c) - xy(a));
    if (area == 0.0) continue;
    const double u = cross(xy(p) - xy(a), xy(c) - xy(a)) / area;
    const double v = cross(xy(b) - xy(a), xy(p) - xy(a)) / area;
    if (u < 0.0 || v < 0.0 || u + v > 1.0) continue;
    if (a.z + (b.z - a.z) * u + (c.z - a.z) * v > p.z) inside = !inside;
  }
  return inside;
}

bool part_reaches_into(const Part& part, const Swing& swing) {
  if (!boxes_meet(geom::bounds(part.mesh), swing)) return false;
  for (const geom::Triangle& t : part.mesh.triangles) {
    const Vec3 corner[3] = {part.mesh.vertices[t[0]], part.mesh.vertices[t[1]],
                            part.mesh.vertices[t[2]]};
    if (reaches_into(swing, corner)) return true;
  }
  const Vec2 middle = swing.hinge + (swing.along + swing.towards) * (0.4 * swing.radius);
  return part.closed && holds(part.mesh, at_height(middle, 0.5 * (swing.foot + swing.top)));
}

}  // namespace

bool reaches_into(const Swing& swing, const Vec3 (&corner)[3]) {
  Ring ring;
  for (const Vec3& p : corner) ring.push_back(seen_from_hinge(swing, p));
  ring = clipped(ring, [](Vec3 p) { return p.x - kClear; });
  ring = clipped(ring, [](Vec3 p) { return p.y - kClear; });
  ring = clipped(ring, [&](Vec3 p) { return p.z - swing.foot; });
  ring = clipped(ring, [&](Vec3 p) { return swing.top - p.z; });
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Vec2 p = xy(ring[k]), q = xy(ring[(k + 1) % ring.size()]);
    if (geom::distance_to_segment({0.0, 0.0}, p, q) < swing.radius) return true;
  }
  return false;
}

double highest_ground(const geom::Heightfield& ground, const Swing& swing) {
  double highest = -1e300;
  const auto look_along = [&](Vec2 p, Vec2 q) {
    for (const double t : geom::ground_breaks(ground, p, q)) {
      highest = std::max(highest, geom::height_at(ground, lerp(p, q, t)));
    }
  };
  constexpr int kChords = 64;
  Vec2 last = swing.hinge + swing.along * swing.radius;
  for (int k = 0; k <= kChords; ++k) {
    const double t = 0.5 * geom::kPi * k / kChords;
    const Vec2 p =
        swing.hinge + (swing.along * std::cos(t) + swing.towards * std::sin(t)) * swing.radius;
    look_along(swing.hinge, p);
    look_along(last, p);
    last = p;
  }
  return highest;
}

std::optional<std::string> obstacle_in(const Model& model, const Swing& swing) {
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (static_cast<int>(k) == swing.own_leaf || part.mesh.empty()) continue;
    if (may_stand_in_the_way(part) && part_reaches_into(part, swing)) return part.name;
  }
  if (highest_ground(model.ground, swing) > swing.foot + 1e-9) return "the ground";
  return std::nullopt;
}

Swing swing_about(const Gateway& g, const Gate& gate, bool about_a) {
  Swing swing;
  swing.hinge = about_a ? g.a : g.b;
  swing.along = geom::unit(about_a ? g.b - g.a : g.a - g.b);
  const Vec2 inwards = left_of(geom::unit(g.b - g.a));
  swing.towards = gate.opens_inwards ? inwards : -inwards;
  swing.radius = geom::distance(g.a, g.b) - gate.side_gap;
  swing.foot = g.leaf_foot;
  swing.top = g.leaf_top;
  swing.own_leaf = g.leaf_part;
  return swing;
}

std::string in_the_second_swing(const Model& model, const Gateway& g, const Gate& gate,
                                double spare) {
  if (!gate.vestibule || g.second_leaf_part < 0) return {};
  const geom::Box3 leaf =
      geom::bounds(model.parts[static_cast<std::size_t>(g.second_leaf_part)].mesh);
  const Vec2 out = -left_of(geom::unit(g.b - g.a));
  std::string first;
  for (const bool outwards : {true, false}) {
    if (!outwards && spare < gate.width) break;
    for (const bool about_a : {true, false}) {
      Swing swing = swing_about(g, gate, about_a);
      swing.hinge = swing.hinge + out * gate.vestibule->depth;
      swing.towards = outwards ? out : -out;
      swing.foot = leaf.lo.z;
      swing.top = leaf.hi.z;
      swing.own_leaf = g.second_leaf_part;
      const std::optional<std::string> thing = obstacle_in(model, swing);
      if (!thing) return {};
      if (first.empty()) first = *thing;
    }
  }
  return first;
}

}  // namespace hummock::entry
