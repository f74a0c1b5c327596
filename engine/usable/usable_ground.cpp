#include "engine/usable/usable_ground.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/species/young.h"
#include "engine/usable/kept_answers.h"

namespace hummock::usable {
namespace {

constexpr double kClear = 0.002;        // m above the ground where the line up starts
constexpr double kFarUp = 1e4;          // m
constexpr double kSameCrossing = 1e-4;  // m: a line through the edge of two triangles meets both

Polygon footprint(const Den& den) {
  const Vec2 ahead{std::cos(den.turn), std::sin(den.turn)};
  const Vec2 u = ahead * (0.5 * den.size.x);
  const Vec2 v = geom::left_of(ahead) * (0.5 * den.size.y);
  return {den.at - u - v, den.at + u - v, den.at + u + v, den.at - u + v};
}

// A species without a figure (a model made in code) stands on any slope.
double tangent_of(double stand_slope) {
  if (!(stand_slope > 0.0) || stand_slope >= geom::kPi / 2) return 1e300;
  return std::tan(stand_slope) * (1.0 + 1e-9) + 1e-12;
}

std::unique_ptr<geom::RayScene> scene_of(const Model& model) {
  auto scene = std::make_unique<geom::RayScene>();
  for (std::size_t k = 0; k < model.parts.size(); ++k)
    if (model.parts[k].blocks_body && model.parts[k].kind != PartKind::ground)
      scene->add_mesh(model.parts[k].mesh, static_cast<std::int32_t>(k));
  scene->commit();
  return scene;
}

// Of one closed part on the line: ways out less ways in.
struct Crossing {
  std::int32_t id = 0;
  int more_out = 0;
  double last_out = -1.0, last_in = -1.0;
};

void count(std::vector<Crossing>& all, const geom::Hit& hit) {
  auto at = std::find_if(all.begin(), all.end(), [&](const Crossing& c) { return c.id == hit.id; });
  if (at == all.end()) at = all.insert(all.end(), Crossing{hit.id});
  const bool out = hit.normal.z > 0.0;
  double& last = out ? at->last_out : at->last_in;
  if (last >= 0.0 && hit.t - last < kSameCrossing) return;
  last = hit.t;
  at->more_out += out ? 1 : -1;
}

}  // namespace

Needs needs_of(const Species& species) {
  Body body = body_of(species);
  body.crouch = std::min(crouch_of_both(species, body.crouch), body.height);
  return {body, species.stand_slope.value, species.wade_depth.value, false};
}

UsableGround::UsableGround(const Model& model)
    : UsableGround(model, needs_of(model.site.species)) {}

UsableGround::UsableGround(const Model& model, const Needs& needs)
    : model_(model),
      body_(needs.body),
      steepest_(tangent_of(needs.stand_slope)),
      wade_(needs.wade_depth),
      drained_(needs.drained) {
  for (const Den& den : model.site.dens) shelters_.push_back(footprint(den));
  for (const House& house : model.site.houses) shelters_.push_back(house.outline);
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::water || part.mesh.empty() || part.source < 0) continue;
    const Water& water = model.site.waters[static_cast<std::size_t>(part.source)];
    if (needs.drained && water.drain) continue;
    basins_.push_back({water.outline, geom::bounds(water.outline), geom::bounds(part.mesh).hi.z});
  }
  if (!model.body_scene) own_ = scene_of(model);
  sky_ = kept_sky(model);
}

const geom::RayScene& UsableGround::scene() const {
  return own_ ? *own_ : *model_.body_scene;
}

UsableGround::Above UsableGround::above(Vec2 p, double ground) const {
  Above out{false, std::numeric_limits<double>::infinity()};
  if (sky_ && sky_->over(p)) return out;  // it could meet but the ground, which is none of it
  const geom::Ray up{{p.x, p.y, ground + kClear}, {0.0, 0.0, 1.0}, 0.0, kFarUp};
  if (!scene().first_hit(up)) return out;
  std::vector<Crossing> crossings;
  for (const geom::Hit& hit : scene().all_hits(up)) {
    if (hit.id == kGroundId) continue;
    out.clear = std::min(out.clear, hit.t + kClear);
    if (model_.parts[static_cast<std::size_t>(hit.id)].closed) count(crossings, hit);
  }
  out.inside = std::any_of(crossings.begin(), crossings.end(),
                           [](const Crossing& c) { return c.more_out > 0; });
  return out;
}

bool UsableGround::in_a_basin(Vec2 p) const {
  return std::any_of(basins_.begin(), basins_.end(), [&](const Basin& b) {
    return p.x >= b.box.lo.x && p.x <= b.box.hi.x && p.y >= b.box.lo.y && p.y <= b.box.hi.y;
  });
}

double UsableGround::water_depth(Vec2 p, double ground) const {
  double depth = 0.0;
  for (const Basin& b : basins_) {
    if (p.x < b.box.lo.x || p.x > b.box.hi.x || p.y < b.box.lo.y || p.y > b.box.hi.y) continue;
    if (b.level - ground > depth && geom::contains(b.outline, p)) depth = b.level - ground;
  }
  return depth;
}

Being UsableGround::being_at(Vec2 p, double ground, bool open_sky) const {
  const double depth = water_depth(p, ground);
  const bool deep = depth > wade_;
  if (deep && !body_.swims) return Being::nowhere;
  const Being found = deep ? Being::afloat : Being::on_ground;
  if (open_sky) return found;
  const Above a = above(p, deep ? ground + depth : ground);
  return !a.inside && a.clear >= body_.crouch ? found : Being::nowhere;
}

bool UsableGround::can_be(Vec2 p, double ground) const {
  return being_at(p, ground) != Being::nowhere;
}

bool UsableGround::can_stand(Vec2 p, double ground, Vec2 gradient) const {
  if (length(gradient) > steepest_) return false;
  for (const Polygon& shelter : shelters_)
    if (geom::contains(shelter, p)) return false;
  if (water_depth(p, ground) > wade_) return false;
  const Above a = above(p, ground);
  return !a.inside && a.clear >= body_.height;
}

Being UsableGround::walking_at(Vec2 p, double ground, Vec2 gradient) const {
  const Being being = being_at(p, ground);
  if (being == Being::on_ground && length(gradient) > steepest_) return Being::nowhere;
  const auto& unsaid = body_.defaults;
  const bool swims = std::find(unsaid.begin(), unsaid.end(), "swims") == unsaid.end();
  return being == Being::afloat && !swims ? Being::nowhere : being;
}

bool UsableGround::can_be(Vec2 p) const {
  return can_be(p, geom::height_at(model_.ground, p));
}

bool UsableGround::can_stand(Vec2 p) const {
  const Vec3 n = geom::normal_at(model_.ground, p);
  return can_stand(p, geom::height_at(model_.ground, p), {-n.x / n.z, -n.y / n.z});
}

bool UsableGround::in_solid(Vec2 p) const {
  return above(p, geom::height_at(model_.ground, p)).inside;
}

}  // namespace hummock::usable
