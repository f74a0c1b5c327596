#include "engine/water/clear_drain.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "geometry/plan/polygon.h"

namespace hummock::water {
namespace {

constexpr double kApart = 0.02;      // m, between lines
constexpr double kLeastRoom = 0.1;   // m; common practice, no source
constexpr double kOffFence = 0.002;  // m: past the sheet itself
constexpr double kFar = 1e4;         // m

// The fence itself, and the drain's own grille.
bool of_the_fence(PartKind kind) {
  switch (kind) {
    case PartKind::panel:
    case PartKind::post:
    case PartKind::overhang:
    case PartKind::skirt:
    case PartKind::apron:
    case PartKind::footing:
    case PartKind::gate:
    case PartKind::drain_grille:
      return true;
    default:
      return false;
  }
}

bool free_line(const Model& model, Vec3 from, Vec2 way, double room) {
  std::map<std::int32_t, int> more_out;
  for (const geom::Hit& hit :
       model.body_scene->all_hits({from, {way.x, way.y, 0.0}, kOffFence, kFar})) {
    if (hit.id == kGroundId) continue;
    const Part& part = model.parts[static_cast<std::size_t>(hit.id)];
    if (of_the_fence(part.kind)) continue;
    if (hit.t < room) return false;
    const bool out = dot(geom::xy(hit.normal), way) > 0.0;
    if (part.closed) more_out[hit.id] += out ? 1 : -1;
  }
  return std::none_of(more_out.begin(), more_out.end(),
                      [](const auto& part) { return part.second > 0; });
}

}  // namespace

std::optional<double> clear_sill(const Model& model, const Drain& drain) {
  if (!model.body_scene) return drain.sill;
  const Polygon& outline = model.site.boundary.outline;
  const Vec2 a = outline[static_cast<std::size_t>(drain.edge)];
  const Vec2 b = outline[(static_cast<std::size_t>(drain.edge) + 1) % outline.size()];
  const Vec2 along = geom::unit(b - a), inward = geom::left_of(along);
  const double room = std::max(drain.height, kLeastRoom);
  const int lines = std::max(1, static_cast<int>(std::ceil(drain.width / kApart)));
  for (const double share : {0.1, 0.5, 0.9}) {
    for (int k = 0; k < lines; ++k) {
      const Vec2 p = a + along * (drain.from + drain.width * (k + 0.5) / lines);
      const double up = drain.sill + share * drain.height;
      const Vec3 from = geom::at_height(p, geom::height_at(model.ground, p) + up);
      if (!free_line(model, from, inward, room) || !free_line(model, from, inward * -1.0, room))
        continue;
      return share < 0.2 ? drain.sill : up;
    }
  }
  return std::nullopt;
}

std::vector<std::string> shut_drains(const Model& model) {
  std::vector<std::string> names;
  for (const Drain& d : model.site.boundary.drains)
    if (!clear_sill(model, d)) names.push_back(d.name);
  return names;
}

}  // namespace hummock::water
