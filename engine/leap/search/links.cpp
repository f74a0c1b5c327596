#include "engine/leap/search/links.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace hummock::leap {

using geom::Box3;

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

double gap(double a_lo, double a_hi, double b_lo, double b_hi) {
  return std::max({0.0, b_lo - a_hi, a_lo - b_hi});
}

struct Stretched {
  double x = 0.0, z = 0.0;
};
Stretched stretched(const LinkRules& rules, const Arc& arc) {
  return {rules.ability.stretch * length(xy(arc.to) - xy(arc.from)), arc.to.z - arc.from.z};
}

// Room on a side in bulge: flatter flights end where the flight is a straight line to the target.
double rung_height(const LinkRules& rules, const Stretched& d, Side side) {
  const double whole = 4.0 * rules.step;
  if (side == Side::steeper) return whole;
  return std::min(whole, 0.25 * std::sqrt(d.x * d.x + d.z * d.z));
}

double half_size(const Box3& cell) {
  return 0.5 * length(cell.hi - cell.lo);
}

}  // namespace

double cost_of_takeoff(const Ability& ability, bool stands) {
  if (stands) return 1.0;
  return ability.cling > 0.0 ? 1.0 / ability.cling : kInfinite;
}

double box_gap2(const Box3& a, const Box3& b) {
  const double x = gap(a.lo.x, a.hi.x, b.lo.x, b.hi.x);
  const double y = gap(a.lo.y, a.hi.y, b.lo.y, b.hi.y);
  const double z = gap(a.lo.z, a.hi.z, b.lo.z, b.hi.z);
  return x * x + y * y + z * z;
}

double link_bound(const LinkRules& rules, const Box3& from, bool stands, const Box3& to,
                  bool hook) {
  const double x = gap(from.lo.x, from.hi.x, to.lo.x, to.hi.x);
  const double y = gap(from.lo.y, from.hi.y, to.lo.y, to.hi.y);
  const double z = gap(from.lo.z, from.hi.z, to.lo.z, to.hi.z);
  const double plan2 = x * x + y * y;
  if (plan2 + z * z <= rules.step_over_gap * rules.step_over_gap) return 0.0;
  if (!stands && rules.ability.cling <= 0.0) return kInfinite;
  const double rise = to.lo.z - (hook ? rules.ability.grip : 0.0) - from.hi.z;
  const double e = effort(std::sqrt(plan2), rise, rules.ability.stretch);
  return stands ? e : e / rules.ability.cling;
}

bool within_step_over(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to) {
  return box_gap2(from.cell, to.cell) <= rules.step_over_gap * rules.step_over_gap;
}

Arc least_arc(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to) {
  Arc arc{from.at, to.at, 0.0};
  if (to.hook) arc.to.z -= rules.ability.grip;
  const Stretched d = stretched(rules, arc);
  arc.apex = least_apex(d.x, d.z);
  return arc;
}

double effort_of(const LinkRules& rules, const Arc& arc) {
  const Stretched d = stretched(rules, arc);
  return arc_effort(d.x, d.z, arc.apex);
}

Ends ends_of(const LinkRules& rules, const SurfacePiece& to) {
  Ends ends;
  ends.clear_to = kLift + (to.hook ? rules.ability.grip : 0.0);
  return ends;
}

Arc rung(const LinkRules& rules, const Arc& least, Side side, double k) {
  Arc arc = least;
  const double by = k * rung_height(rules, stretched(rules, least), side);
  arc.apex += side == Side::steeper ? by : -by;
  return arc;
}

double rung_bound(const LinkRules& rules, const Arc& least, const SurfacePiece& from,
                  const SurfacePiece& to, Side side, double k, double share) {
  const double x = std::max(0.0, rules.ability.stretch * plan_distance(from.cell, to.cell));
  const double z = to.cell.lo.z - (to.hook ? rules.ability.grip : 0.0) - from.cell.hi.z;
  const double u = std::clamp(share, 1.0 / 16.0, 15.0 / 16.0);
  const double give = ((1.0 - u) * half_size(from.cell) + u * half_size(to.cell)) / (u * (1.0 - u));
  const double w = rung(rules, least, side, k).apex;
  const double w0 = least_apex(x, z);
  const double nearest = side == Side::steeper ? std::max(w0, w - give) : std::min(w0, w + give);
  const double e = arc_effort(x, z, nearest);
  return e * cost_of_takeoff(rules.ability, !from.cling);
}

}  // namespace hummock::leap
