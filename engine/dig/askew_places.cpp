// Folded planes where what is buried changes along the fence.
#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/dig/stations.h"

namespace hummock::dig {

namespace {

using barrier::Stretch;

constexpr double kBeside = 1e-3;  // m from the place along the fence
constexpr double kRoom = 0.02;    // m of ground a half plane must have

bool same(const std::optional<Apron>& p, const std::optional<Apron>& q) {
  if (p.has_value() != q.has_value()) return false;
  return !p || (p->length == q->length && p->depth == q->depth && p->side == q->side);
}

bool same(const std::optional<Footing>& p, const std::optional<Footing>& q) {
  if (p.has_value() != q.has_value()) return false;
  return !p || (p->depth == q->depth && p->width == q->width);
}

bool buried_alike(const Stretch& s, const Stretch& r) {
  return s.buried.skirt == r.buried.skirt && same(s.buried.apron, r.buried.apron) &&
         same(s.buried.footing, r.buried.footing);
}

// A stretch and the one next to it that is not buried alike. `ahead`: that comes after it, along
// its own direction.
using BesideOther = void(const Stretch& on, const Stretch& other, bool ahead);

void at_changes(const barrier::Barrier& barrier, const std::function<BesideOther>& take) {
  for (const barrier::Chain& chain : barrier.chains) {
    if (chain.kind != barrier::ChainKind::boundary) continue;
    const std::size_t n = chain.stretches.size();
    for (std::size_t k = 0; k < n; ++k) {
      const Stretch& before = chain.stretches[k];
      const Stretch& after = chain.stretches[(k + 1) % n];
      if (buried_alike(before, after)) continue;
      take(before, after, true);
      take(after, before, false);
    }
  }
}

// Just beside where the stretch meets the other, square to it.
StationPlace place_beside(const Stretch& on, bool ahead) {
  const Vec2 along = geom::unit(on.b - on.a);
  StationPlace place;
  place.plane.at = ahead ? on.b - along * kBeside : on.a + along * kBeside;
  place.plane.inwards = place.out = left_of(along);
  place.section = on.section;
  place.gateway = on.kind == barrier::StretchKind::gate ? on.gateway : -1;
  place.folded = true;
  place.side = on.side;
  return place;
}

Vec2 turned(Vec2 v, double angle) {
  return {v.x * std::cos(angle) - v.y * std::sin(angle),
          v.x * std::sin(angle) + v.y * std::cos(angle)};
}

// Planes through that place. What is drawn to run on under a gate is not counted there.
void add_fan(const Model& model, const Stretch& on, const Stretch& other, bool ahead,
             std::vector<StationPlace>& places) {
  StationPlace place = place_beside(on, ahead);
  const Vec2 inwards = place.out;
  const bool beside_gate = other.kind == barrier::StretchKind::gate;
  constexpr double kLeans[] = {0.0, 45.0, -45.0, 80.0, -80.0};  // degrees towards `other`
  for (const double in : kLeans) {
    for (const double out : kLeans) {
      if (in == 0.0 && out == 0.0) continue;
      const double side = ahead ? -1.0 : 1.0;
      place.plane.inwards = turned(inwards, side * in * geom::kDegree);
      place.out = turned(inwards, -side * out * geom::kDegree);
      place.without_in = beside_gate && in > 0.0 ? kApron : 0U;
      place.without_out = beside_gate && out > 0.0 ? kApron : 0U;
      const Limits room = limits_at(model, place);
      if (std::min(room.inside, room.outside) > kRoom) places.push_back(place);
    }
  }
}

}  // namespace

std::vector<StationPlace> askew_places(const Model& model, const barrier::Barrier& barrier) {
  std::vector<StationPlace> places;
  at_changes(barrier, [&](const Stretch& on, const Stretch& other, bool ahead) {
    add_fan(model, on, other, ahead, places);
  });
  return places;
}

std::vector<PlaceOfChange> places_of_change(const Model& model) {
  std::vector<PlaceOfChange> places;
  at_changes(barrier::barrier_of(model), [&](const Stretch& on, const Stretch& other, bool ahead) {
    PlaceOfChange change;
    change.place = place_beside(on, ahead);
    const bool beside_gate = other.kind == barrier::StretchKind::gate;
    change.place.without_in = beside_gate ? kApron : 0U;
    change.towards_other = geom::unit(on.b - on.a) * (ahead ? 1.0 : -1.0);
    places.push_back(change);
  });
  return places;
}

}  // namespace hummock::dig
