#include "viewer/scene/picking.h"

#include <cmath>

namespace hummock::viewer {
namespace {

bool looked_through(const Part& part) {
  return part.kind == PartKind::crown || part.kind == PartKind::planting ||
         part.kind == PartKind::water || part.kind == PartKind::surrounding ||
         part.kind == PartKind::roof || (!part.closed && part.sight > 0.3) ||
         part.surface == Surface::mesh;
}

bool cut_away(const DrawSettings& s, Vec3 p) {
  return s.cut[0] * p.x + s.cut[1] * p.y + s.cut[2] * p.z + s.cut[3] < 0.0;
}

}  // namespace

Picker::Picker(std::shared_ptr<const Model> model) : model_(std::move(model)) {
  rays_.add_ground(model_->ground, kGroundId);
  for (std::size_t i = 0; i < model_->parts.size(); ++i)
    rays_.add_mesh(model_->parts[i].mesh, static_cast<std::int32_t>(i));
  rays_.commit();
}

std::optional<Picked> Picker::pick(const Sightline& sight, const DrawSettings& settings,
                                   bool solid_only) const {
  for (const geom::Hit& hit : rays_.all_hits({sight.origin, sight.direction, 0.0, 1e6})) {
    const Vec3 at = sight.origin + sight.direction * hit.t;
    if (cut_away(settings, at)) continue;
    if (hit.id == kGroundId) return Picked{-1, at, hit.t};
    const Part& part = model_->parts[static_cast<std::size_t>(hit.id)];
    if (!part_shown(settings.show, part) || (solid_only && looked_through(part))) continue;
    return Picked{hit.id, at, hit.t};
  }
  return std::nullopt;
}

std::optional<Vec3> Picker::ground(const Sightline& sight) const {
  for (const geom::Hit& hit : rays_.all_hits({sight.origin, sight.direction, 0.0, 1e6}))
    if (hit.id == kGroundId) return sight.origin + sight.direction * hit.t;
  // Off the block: the level of the ground's middle.
  const auto& grid = model_->ground.grid;
  return on_level(sight, geom::height_at(model_->ground, {(grid.x0 + grid.x_max()) / 2.0,
                                                          (grid.y0 + grid.y_max()) / 2.0}));
}

std::optional<Vec3> on_level(const Sightline& sight, double z) {
  if (std::abs(sight.direction.z) < 1e-9) return std::nullopt;
  const double t = (z - sight.origin.z) / sight.direction.z;
  if (t <= 0.0) return std::nullopt;
  return sight.origin + sight.direction * t;
}

}  // namespace hummock::viewer
