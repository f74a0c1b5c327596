#include "engine/stations/lamps.h"

#include <algorithm>
#include <cmath>

#include "engine/model/climbed.h"
#include "engine/stations/stations.h"
#include "geometry/mesh/mesh_distance.h"
#include "geometry/plan/node_range.h"

namespace hummock::stations {
namespace {

// How far the animal's body goes from where it stands or holds on.
double stretch(const Body& body) {
  return std::max(body.height, body.reach);
}

bool in_a_house(const Site& site, Vec2 p) {
  return std::any_of(site.houses.begin(), site.houses.end(),
                     [&](const House& house) { return geom::contains(house.outline, p); });
}

// Heights it may stand at over a point.
std::vector<double> feet_at(const Model& model, const usable::UsableGround& ground, Vec2 p) {
  constexpr double kFarUp = 1e4;     // m
  constexpr double kClear = 0.5e-3;  // m
  std::vector<double> feet;
  const double z = geom::height_at(model.ground, p);
  if (in_a_house(model.site, p)) feet.push_back(z);
  const usable::Being being = ground.being_at(p, z);
  if (being == usable::Being::on_ground) feet.push_back(z);
  if (being == usable::Being::afloat) feet.push_back(z + ground.water_depth(p, z));
  if (!model.body_scene) return feet;
  for (const geom::Hit& hit :
       model.body_scene->all_hits({{p.x, p.y, z + kClear}, {0.0, 0.0, 1.0}, 0.0, kFarUp})) {
    if (hit.id == kGroundId || hit.normal.z <= 0.0) continue;
    const PartKind kind = model.parts[static_cast<std::size_t>(hit.id)].kind;
    if (kind == PartKind::object || kind == PartKind::den) feet.push_back(z + kClear + hit.t);
  }
  return feet;
}

// From the climbed faces, the surfaces alone.
double to_climbed(const Model& model, Vec3 lamp, double within) {
  constexpr double kPoint = 1e-6;  // m: a triangle as small as a point
  geom::Mesh point;
  point.vertices = {lamp, lamp + Vec3{kPoint, 0.0, 0.0}, lamp + Vec3{0.0, kPoint, 0.0}};
  point.triangles = {{0, 1, 2}};
  const geom::MeshTree at(point);
  double least = within;
  for (const Part& part : model.parts) {
    if (!part.blocks_body || part.mesh.empty()) continue;
    if (!part.climbable && !climbs(model.site.species, part.surface)) continue;
    least = std::min(least, geom::nearest(at, geom::MeshTree(part.mesh), least).distance);
  }
  return least;
}

}  // namespace

double lamp_clearance(const Model& model, const usable::UsableGround& ground, Vec3 lamp) {
  const geom::Grid& g = model.ground.grid;
  const double tall = stretch(ground.body());
  const double half = std::sqrt(0.5) * g.cell;  // a node stands for its cell
  const double on_faces = to_climbed(model, lamp, kLampSought + tall);
  double least = std::max(0.0, on_faces - tall);
  const Vec2 about{kLampSought + half, kLampSought + half};
  const geom::NodeRange range =
      geom::nodes_about(g, geom::xy(lamp) - about, geom::xy(lamp) + about);
  for (int j = range.j0; j <= range.j1; ++j)
    for (int i = range.i0; i <= range.i1; ++i) {
      const Vec2 p = g.node(i, j);
      const double off = std::max(0.0, geom::distance(p, geom::xy(lamp)) - half);
      if (off >= least) continue;
      for (const double foot : feet_at(model, ground, p)) {
        const double up = std::max({0.0, lamp.z - (foot + tall), foot - lamp.z});
        least = std::min(least, std::hypot(off, up));
      }
    }
  return std::min(least, kLampSought);
}

}  // namespace hummock::stations
