#include "engine/leap/search/flight_tests.h"

#include <algorithm>

namespace hummock::leap {

using geom::Vec3;

// Counts the flight; the box that holds it.
geom::Box3 FlightTests::take_in(const Arc& arc) {
  ++flights_;
  geom::Box3 box;
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

bool FlightTests::flight_free(const Arc& arc, const Entry& e, const SurfacePiece& to,
                              double* share) {
  if (known_ == nullptr || !rules_.blocked) return flight_free(arc, to, share);
  const geom::Box3 passes = take_in(arc);
  const FlightMemo::Flight flight{
      static_cast<std::uint32_t>(e.pa), static_cast<std::uint32_t>(e.pb), e.a, e.b, e.k,
      e.side == Side::steeper};
  std::optional<int> chord = known_->find(flight, arc.from, passes);
  if (!chord) {
    chord = blocked_chord(scene_, arc, rules_.chord_error, ends_of(rules_, to));
    known_->keep(flight, arc.from, passes, *chord);
  }
  if (*chord >= 0) *share = share_at(arc, rules_.chord_error, *chord);
  return *chord < 0;
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
