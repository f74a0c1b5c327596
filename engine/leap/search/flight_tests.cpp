#include "engine/leap/search/flight_tests.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace hummock::leap {

using geom::Box3;
using geom::Vec3;

namespace {

constexpr std::array kAside{Way::left, Way::right, Way::half_left, Way::half_right};

bool seen(const geom::RayScene& scene, Vec3 from, Vec3 to) {
  return from == to || scene.segment_free(from, to);
}

}  // namespace

int way_found(const geom::RayScene& scene, const LinkRules& rules, const Arc& arc,
              const SurfacePiece& from, const SurfacePiece& to, Side side, int k) {
  const Ends ends = ends_of(rules, to);
  const int chord = blocked_chord(scene, arc, rules.chord_error, ends);
  if (chord < 0) return chord;
  std::array<Aside, kAside.size()> beside;
  std::array<Arc, kAside.size()> arcs;
  for (std::size_t i = 0; i < kAside.size(); ++i) {
    beside[i] = aside(rules, from, to, side, k, kAside[i]);
    arcs[i] = beside[i].arc;
  }
  // Mostly the same thing stands in their way at the same place.
  const std::uint32_t met = chords_blocked(scene, arcs, rules.chord_error, ends, chord);
  for (std::size_t i = 0; i < kAside.size(); ++i) {
    if (((met >> i) & 1U) == 0U && arc_free(scene, arcs[i], rules.chord_error, ends) &&
        seen(scene, from.at, beside[i].from.at) && seen(scene, to.at, beside[i].to.at))
      return kMostChords + static_cast<int>(i);
  }
  return chord;
}

Way way_of(int found) {
  if (found < 0) return Way::straight;
  if (found < kMostChords) return Way::blocked;
  return kAside[static_cast<std::size_t>(found - kMostChords)];
}

// Counts the flight; the box that holds it.
Box3 FlightTests::take_in(const Arc& arc) {
  ++flights_;
  Box3 box;
  box.add(arc.from);
  box.add(arc.to);
  // A parabola with ends at 0 and z and bulge w stays under max(0, z) + w/4.
  const double high = std::max(arc.from.z, arc.to.z) + 0.25 * std::max(0.0, arc.apex);
  box.add(Vec3{arc.to.x, arc.to.y, high});
  touched_.add(box);
  return box;
}

bool FlightTests::flight_free(const Arc& arc, const SurfacePiece& to, double* share) {
  if (!rules_.blocked) return true;
  take_in(arc);
  return arc_free(scene_, arc, rules_.chord_error, ends_of(rules_, to), share);
}

// Those aside start and end within the cells; their apex is no higher than the change of rise and
// distance makes it (arcs.h: of w0, at most 2 by the rise and max(1, s) by the distance).
Box3 FlightTests::take_in_aside(Box3 box, const Arc& arc, const SurfacePiece& from,
                                const SurfacePiece& to) {
  double off = 0.0;
  for (const SurfacePiece* piece : {&from, &to}) {
    off += std::sqrt(diagonal2(piece->cell)) + kLift;
    box.add(piece->cell.lo);
    box.add(piece->cell.hi);
  }
  const double steeper = (2.0 + std::max(1.0, rules_.ability.stretch)) * off;
  const double high =
      std::max(arc.from.z, arc.to.z) + off + 0.25 * (std::max(0.0, arc.apex) + steeper);
  box.add(Vec3{arc.to.x, arc.to.y, high});
  touched_.add(box);
  return box;
}

Flown FlightTests::fly(const Arc& arc, const Entry& e, const SurfacePiece& from,
                       const SurfacePiece& to) {
  if (!rules_.blocked) return {Way::straight};
  const Box3 passes = take_in_aside(take_in(arc), arc, from, to);
  const FlightMemo::Flight flight{
      static_cast<std::uint32_t>(e.pa), static_cast<std::uint32_t>(e.pb), e.a, e.b, e.k,
      e.side == Side::steeper};
  std::optional<int> found = known_ != nullptr ? known_->find(flight, from, passes) : std::nullopt;
  if (!found) {
    found = way_found(scene_, rules_, arc, from, to, e.side, e.k);
    if (known_ != nullptr) known_->keep(flight, from, passes, *found);
  }
  if (way_of(*found) != Way::blocked) return {way_of(*found)};
  return {Way::blocked, share_at(arc, rules_.chord_error, *found)};
}

Edge FlightTests::close_in(const Arc& least, const SurfacePiece& to, Side side, int k,
                           double share) {
  constexpr double kNear = 0.125;  // rungs
  Edge edge{k - 1.0, static_cast<double>(k), share};
  while (edge.free - edge.blocked > kNear) {
    const double middle = 0.5 * (edge.free + edge.blocked);
    const bool is_free = flight_free(rung(rules_, least, side, middle), to, &edge.blocked_at);
    (is_free ? edge.free : edge.blocked) = middle;
  }
  return edge;
}

Aside FlightTests::flown(const Entry& e, const SurfacePiece& from, const SurfacePiece& to,
                         Way way) {
  Aside by = aside(rules_, from, to, e.side, e.k, way);
  if (way == Way::straight || e.k == 0) return by;
  const Arc least = least_arc(rules_, by.from, by.to);
  by.arc = rung(rules_, least, e.side, close_in(least, by.to, e.side, e.k, e.share).free);
  return by;
}

void FlightTests::touch(const geom::Box3& a, const geom::Box3& b) {
  for (const geom::Box3& box : {a, b}) {
    touched_.add(box.lo);
    touched_.add(box.hi);
  }
}

// The last centimetre is left untested: the limb curls round the edge. Where it is free it is tried
// a little higher too: along the ground a ray would run between it and what stands on it.
bool FlightTests::limb_free(const std::vector<Vec3>& way) {
  if (!rules_.blocked) return true;
  return legs_free(way, 0.0) && legs_free(way, kLift);
}

bool FlightTests::limb_reaches(const SurfacePiece& from, const SurfacePiece& to) {
  const std::vector<std::vector<Vec3>> ways = limb_ways(rules_, from, to);
  return std::any_of(ways.begin(), ways.end(),
                     [this](const std::vector<Vec3>& way) { return limb_free(way); });
}

bool FlightTests::legs_free(const std::vector<Vec3>& way, double up) {
  constexpr double kCurl = 0.01;  // m
  for (std::size_t k = 1; k < way.size(); ++k) {
    Vec3 end = way[k];
    const double size = distance(way[k - 1], end);
    if (k + 1 == way.size() && size > kCurl) end = lerp(way[k - 1], end, 1.0 - kCurl / size);
    if (size <= kCurl) continue;
    touched_.add(way[k - 1]);
    touched_.add(way[k]);
    if (up <= 0.0) ++flights_;
    const Vec3 lift{0.0, 0.0, up};
    if (!scene_.segment_free(way[k - 1] + lift, end + lift)) return false;
  }
  return true;
}

}  // namespace hummock::leap
