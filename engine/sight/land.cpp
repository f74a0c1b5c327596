#include "engine/sight/land.h"

#include <algorithm>
#include <utility>

#include "engine/ground/guests.h"

namespace hummock::sight {
namespace {

// The share of the way from a to b, a off the grid's area, at which it comes over it.
double share_outside(const geom::Grid& g, Vec2 a, Vec2 b) {
  double in = 0.0;
  const auto along = [&](double from, double to, double lo, double hi) {
    if (from < lo && to > from) in = std::max(in, (lo - from) / (to - from));
    if (from > hi && to < from) in = std::max(in, (from - hi) / (from - to));
  };
  along(a.x, b.x, g.x0, g.x_max());
  along(a.y, b.y, g.y0, g.y_max());
  return std::min(1.0, in);
}

std::shared_ptr<const geom::Heightfield> land_beyond(const Model& model) {
  if (model.beyond) return model.beyond;
  auto level = ground::level_out_to_guests(model.site, model.origin);
  return level ? std::make_shared<const geom::Heightfield>(std::move(*level)) : nullptr;
}

std::optional<geom::RayScene> scene_of(const geom::Heightfield& land) {
  geom::RayScene scene;
  scene.add_ground(land, kGroundId);
  scene.commit();
  return scene;
}

}  // namespace

Land::Land(const Model& model) : modelled_(model.ground), beyond_(land_beyond(model)) {}

void Land::look_from(Vec3 eye) {
  if (near_ || geom::covers(modelled_, geom::xy(eye))) return;
  near_ = scene_of(modelled_);
  if (beyond_) far_ = scene_of(*beyond_);
}

double Land::height_under(Vec2 p) const {
  const bool known = beyond_ && !geom::covers(modelled_, p) && geom::covers(*beyond_, p);
  return geom::height_at(known ? *beyond_ : modelled_, p);
}

bool Land::hides(Vec3 eye, Vec3 target) const {
  if (near_->occluded({eye, target - eye, 0.0, 1.0})) return true;
  const double out = share_outside(modelled_.grid, geom::xy(eye), geom::xy(target));
  return far_ && far_->occluded({eye, target - eye, 0.0, out});
}

}  // namespace hummock::sight
