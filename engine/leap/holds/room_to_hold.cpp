#include "engine/leap/holds/room_to_hold.h"

#include <cmath>

namespace hummock::leap {

using geom::Vec3;

namespace {

constexpr double kFaces = 0.9;  // cosine between the two, about 25 degrees

bool covers(const Model& model, const geom::Hit& hit) {
  if (hit.id == kGroundId) return false;
  switch (model.parts[static_cast<std::size_t>(hit.id)].kind) {
    case PartKind::object:
    case PartKind::den:
    case PartKind::house:
    case PartKind::panel:
    case PartKind::gate:
    case PartKind::vestibule:
      return true;
    default:
      return false;
  }
}

// What is met first on the way up is left, as room_above asks (places.h); of faces that lie on one
// another either.
bool in_a_closed_thing(const Model& model, Vec3 from) {
  constexpr double kOneOnOther = 1e-3;  // m
  const geom::Ray up{from, {0.0, 0.0, 1.0}, 0.0, 1e30};
  if (!model.body_scene->first_hit(up)) return false;
  geom::Hit first;
  for (const geom::Hit& hit : model.body_scene->all_hits(up)) {
    if (!covers(model, hit)) continue;
    if (first && hit.t > first.t + kOneOnOther) return false;
    const bool closed = model.parts[static_cast<std::size_t>(hit.id)].closed;
    if (hit.id != first.id && closed && hit.normal.z > 0.0) return true;
    if (!first) first = hit;
  }
  return false;
}

}  // namespace

bool room_to_hold(const Model& model, Vec3 from, Vec3 normal, double squeeze) {
  if (in_a_closed_thing(model, from)) return false;
  const geom::Hit hit = model.body_scene->first_hit({from, normal, 0.0, squeeze});
  if (!hit || !covers(model, hit)) return true;
  return std::abs(dot(geom::unit(hit.normal), normal)) < kFaces;
}

}  // namespace hummock::leap
