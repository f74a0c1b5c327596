#include "engine/leap/search/links.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;
using geom::Vec3;

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

double gap(double a_lo, double a_hi, double b_lo, double b_hi) {
  return std::max({0.0, b_lo - a_hi, a_lo - b_hi});
}

struct Span {
  double r = 0.0, z = 0.0;  // m
};
Span span_of(const Arc& arc) {
  return {length(xy(arc.to) - xy(arc.from)), arc.to.z - arc.from.z};
}

// Room on a side in bulge: flatter flights end where the flight is a straight line to the target,
// w = z; from the least, that is the root of effort.h (2) lower.
double rung_height(const LinkRules& rules, const Span& d, Side side) {
  const double whole = 4.0 * rules.step;
  if (side == Side::steeper) return whole;
  return std::min(whole, 0.25 * (least_flight(d.r, d.z, rules.ability.stretch) - d.z));
}

double half_size(const Box3& cell) {
  return 0.5 * length(cell.hi - cell.lo);
}

double drawn_in(double edge, double at, double share) {
  const double by = edge - at;
  return at + share * std::copysign(std::max(0.0, std::abs(by) - kCornerIn), by);
}

// To the corner of its cell that lies farthest towards n, and up on to the highest of the cell:
// a corner lower than its piece would lie under it. A climbed face is left where its point is: its
// cell's corners may lie behind it.
SurfacePiece moved(const SurfacePiece& piece, Vec2 n, double share) {
  SurfacePiece out = piece;
  if (piece.cling) return out;
  constexpr double kAlong = 1e-9;  // numeric: both corners lie as far out
  const geom::Box3& cell = piece.cell;
  if (std::abs(n.x) > kAlong)
    out.at.x = drawn_in(n.x > 0.0 ? cell.hi.x : cell.lo.x, piece.at.x, share);
  if (std::abs(n.y) > kAlong)
    out.at.y = drawn_in(n.y > 0.0 ? cell.hi.y : cell.lo.y, piece.at.y, share);
  out.at.z = std::max(piece.at.z, cell.hi.z + kLift);
  return out;
}

}  // namespace

bool fly_alike(const LinkRules& a, const LinkRules& b) {
  return a.ability.stretch == b.ability.stretch && a.ability.grip == b.ability.grip &&
         a.step == b.step && a.chord_error == b.chord_error && a.blocked == b.blocked;
}

double cost_of_takeoff(const Ability& ability, bool stands) {
  if (stands) return 1.0;
  return ability.cling > 0.0 ? 1.0 / ability.cling : kNever;
}

double box_gap2(const Box3& a, const Box3& b) {
  const double x = gap(a.lo.x, a.hi.x, b.lo.x, b.hi.x);
  const double y = gap(a.lo.y, a.hi.y, b.lo.y, b.hi.y);
  const double z = gap(a.lo.z, a.hi.z, b.lo.z, b.hi.z);
  return x * x + y * y + z * z;
}

double effort_from(const Patch& patch, double effort) {
  if (effort <= 0.0) return effort;
  return patch.takeoff > 0.0 ? effort / patch.takeoff : kNever;
}

double diagonal2(const Box3& box) {
  const Vec3 d = box.hi - box.lo;
  return dot(d, d);
}

bool within_reach(const LinkRules& rules, const Box3& from, const Box3& to, bool hook) {
  const double reach = rules.ability.reach;
  return hook && reach > 0.0 && box_gap2(from, to) <= reach * reach;
}

double link_bound(const LinkRules& rules, const Box3& from, bool stands, const Box3& to,
                  bool hook) {
  if (within_reach(rules, from, to, hook)) return 0.0;
  return leap_bound(rules, from, stands, to, hook);
}

double leap_bound(const LinkRules& rules, const Box3& from, bool stands, const Box3& to,
                  bool hook) {
  const double x = gap(from.lo.x, from.hi.x, to.lo.x, to.hi.x);
  const double y = gap(from.lo.y, from.hi.y, to.lo.y, to.hi.y);
  const double z = gap(from.lo.z, from.hi.z, to.lo.z, to.hi.z);
  const double plan2 = x * x + y * y;
  if (plan2 + z * z <= rules.step_over_gap * rules.step_over_gap) return 0.0;
  if (!stands && rules.ability.cling <= 0.0) return kNever;
  const double rise = to.lo.z - (hook ? rules.ability.grip : 0.0) - from.hi.z;
  const double e = effort(std::sqrt(plan2), rise, rules.ability.stretch);
  return stands ? e : e / rules.ability.cling;
}

bool within_step_over(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to) {
  return box_gap2(from.cell, to.cell) <= rules.step_over_gap * rules.step_over_gap;
}

std::vector<std::vector<Vec3>> limb_ways(const LinkRules& rules, const SurfacePiece& from,
                                         const SurfacePiece& to) {
  constexpr double kPast = 0.02;  // m, beyond the edge before the limb turns up
  std::vector<std::vector<Vec3>> ways;
  const double reach = rules.ability.reach;
  // The cells count as they lie nearest, the limb from their points: that much is allowed for.
  const double slack = half_size(from.cell) + half_size(to.cell);
  if (distance(from.at, to.at) <= reach + slack) ways.push_back({from.at, to.at});
  const geom::Vec2 run = xy(to.at) - xy(from.at);
  if (length(run) > 1e-9) {
    const geom::Vec2 past = xy(to.at) + geom::unit(run) * kPast;
    const Vec3 elbow = at_height(past, std::min(from.at.z, to.at.z - kPast));
    if (distance(from.at, elbow) + distance(elbow, to.at) <= reach + slack + kPast) {
      ways.push_back({from.at, elbow, to.at});
    }
  }
  return ways;
}

Arc least_arc(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to) {
  Arc arc{from.at, to.at, 0.0};
  if (to.hook) arc.to.z -= rules.ability.grip;
  const Span d = span_of(arc);
  arc.apex = least_flight(d.r, d.z, rules.ability.stretch);
  return arc;
}

double effort_of(const LinkRules& rules, const Arc& arc) {
  const Span d = span_of(arc);
  return flight_effort(d.r, d.z, arc.apex, rules.ability.stretch);
}

double effort_onward(const LinkRules& rules, const Arc& arc, Side side) {
  const Span d = span_of(arc);
  return effort_beyond(d.r, d.z, arc.apex, rules.ability.stretch, side == Side::steeper);
}

Ends ends_of(const LinkRules& rules, const SurfacePiece& to) {
  Ends ends;
  ends.clear_to = kLift + (to.hook ? rules.ability.grip : 0.0);
  return ends;
}

Arc rung(const LinkRules& rules, const Arc& least, Side side, double k) {
  Arc arc = least;
  const double by = k * rung_height(rules, span_of(least), side);
  arc.apex += side == Side::steeper ? by : -by;
  return arc;
}

double rung_bound(const LinkRules& rules, const Arc& least, const SurfacePiece& from,
                  const SurfacePiece& to, Side side, double k, double share) {
  const double r = plan_distance(from.cell, to.cell);
  const double z = to.cell.lo.z - (to.hook ? rules.ability.grip : 0.0) - from.cell.hi.z;
  const double u = std::clamp(share, 1.0 / 16.0, 15.0 / 16.0);
  const double give = ((1.0 - u) * half_size(from.cell) + u * half_size(to.cell)) / (u * (1.0 - u));
  const double w = rung(rules, least, side, k).apex;
  const bool steeper = side == Side::steeper;
  const double e =
      effort_beyond(r, z, steeper ? w - give : w + give, rules.ability.stretch, steeper);
  return e * cost_of_takeoff(rules.ability, !from.cling);
}

Aside aside(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to, Side side,
            int k, Way way) {
  if (way == Way::straight) return {from, to, rung(rules, least_arc(rules, from, to), side, k)};
  const bool left = way == Way::left || way == Way::half_left;
  const double share = way == Way::left || way == Way::right ? 1.0 : 0.5;
  Vec2 along = xy(to.at) - xy(from.at);
  if (length(along) <= 0.0) along = {1.0, 0.0};  // straight up: the corners are as good as any
  const Vec2 n = left ? Vec2{-along.y, along.x} : Vec2{along.y, -along.x};
  Aside beside{moved(from, n, share), moved(to, n, share), {}};
  beside.arc = rung(rules, least_arc(rules, beside.from, beside.to), side, k);
  return beside;
}

}  // namespace hummock::leap
