// What else stands on the site: dens, plantings, water, houses, surroundings.
//
// den          a closed block of its outer size, set like a box; the hollow and its opening are not
//              modelled (an animal in it is out of the yard, on it is on its lid).
// planting     the volume between the ground and `height` above it, leaf area density from `cover`.
// water        a level sheet over the outline: at `level`, or for a dug basin at its lowest rim.
// house        a closed block on its outline from the lowest ground under it to `height` above the
//              highest; doors and vents are known to the checks from the site file, not as holes.
// surrounding  a closed block from `base` to `height` above the ground there, beyond the modelled
//              ground too (engine/ground/ground.h, far_ground); with a leaf area density it is a
//              volume like a crown.
#include <algorithm>

#include "engine/ground/ground.h"
#include "engine/model/build/build_steps.h"
#include "engine/model/optics.h"
#include "engine/model/shapes/object_solids.h"
#include "engine/model/shapes/solids.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock {
namespace {

Polygon counter_clockwise(Polygon outline) {
  if (geom::signed_area(outline) < 0.0) std::reverse(outline.begin(), outline.end());
  return outline;
}

Part named(const std::string& name, PartKind kind, std::size_t index) {
  Part part;
  part.name = name;
  part.kind = kind;
  part.source = static_cast<int>(index);
  part.closed = true;
  return part;
}

void build_den(Model& model, const Den& den, std::size_t index) {
  Object box;
  box.kind = ObjectKind::box;
  box.at = den.at;
  box.size = den.size;
  box.turn = den.turn;
  Part part = named(den.name, PartKind::den, index);
  part.surface = Surface::wood;
  part.mesh = object_solid(model.ground, box);
  model.parts.push_back(std::move(part));
}

void build_planting(Model& model, const Planting& planting, std::size_t index, double growth) {
  const double height = planting.height * (1.0 + growth);
  Part part = named(planting.name, PartKind::planting, index);
  part.surface = Surface::leaf;
  part.blocks_body = false;
  part.mesh = thickened(draped(model.ground, counter_clockwise(planting.outline)), 0.0, height);
  part.closed = geom::is_closed(part.mesh);
  part.leaf_density = density_for_cover(planting.cover, planting.height);
  part.bare = planting.bare;
  model.parts.push_back(std::move(part));
}

void build_water(Model& model, const Water& water, std::size_t index) {
  const Polygon outline = counter_clockwise(water.outline);
  const double level = *water.level;  // filled in by the ground for dug basins
  Part part = named(water.name, PartKind::water, index);
  part.surface = Surface::water;
  part.closed = false;
  part.blocks_body = false;
  part.openness = 1.0;
  part.sight = 1.0;
  for (const auto& t : geom::triangles_of(outline)) {
    const auto v = static_cast<std::uint32_t>(part.mesh.vertices.size());
    for (Vec2 p : t) part.mesh.vertices.push_back(at_height(p, level));
    part.mesh.triangles.push_back({v, v + 1, v + 2});
  }
  part.mesh = geom::weld(part.mesh, 0.0);
  model.parts.push_back(std::move(part));
}

struct GroundRange {
  double lowest = 1e300;
  double highest = -1e300;
};

GroundRange ground_along(const geom::Heightfield& ground, const Polygon& outline) {
  GroundRange range;
  const auto take = [&](Vec2 p) {
    const double z = geom::height_at(ground, p);
    range.lowest = std::min(range.lowest, z);
    range.highest = std::max(range.highest, z);
  };
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Vec2 a = outline[k];
    const Vec2 b = outline[(k + 1) % outline.size()];
    constexpr int kSteps = 64;
    for (int i = 0; i < kSteps; ++i) take(geom::lerp(a, b, static_cast<double>(i) / kSteps));
  }
  return range;
}

void build_house(Model& model, const House& house, std::size_t index) {
  const Polygon outline = counter_clockwise(house.outline);
  const GroundRange range = ground_along(model.ground, outline);
  Part part = named(house.name, PartKind::house, index);
  part.mesh = prism(outline, range.lowest, range.highest + house.height);
  model.parts.push_back(std::move(part));
}

constexpr double kOpaqueLeaves = 1000.0;  // m²/m³, numeric: a tenth of a metre of it passes nothing

// `far`: the ground beyond the modelled one, where some surrounding stands there.
void build_surrounding(Model& model, const Surrounding& thing, std::size_t index, double growth,
                       const std::optional<ground::FarGround>& far) {
  const Polygon outline = counter_clockwise(thing.outline);
  const bool near = std::all_of(outline.begin(), outline.end(),
                                [&](Vec2 p) { return geom::covers(model.ground, p); });
  const GroundRange range = ground_along(near || !far ? model.ground : far->ground, outline);
  const bool leafy = thing.leaf_area_density > 0.0;
  const double grown = leafy ? 1.0 + growth : 1.0;
  const double foot = thing.base > 0.0 ? range.lowest + thing.base * grown : range.lowest;
  Part part = named(thing.name, PartKind::surrounding, index);
  part.mesh = prism(outline, foot, range.highest + thing.height * grown);
  part.surface = leafy ? Surface::leaf : Surface::smooth;
  part.blocks_body = !leafy;
  part.leaf_density = thing.leaf_area_density;
  part.bare = thing.bare;
  // Opaque in leaf; what its twigs stop nobody said, so nothing.
  if (thing.bare && !leafy) {
    part.leaf_density = kOpaqueLeaves;
    part.bare_share = 0.0;
  }
  model.parts.push_back(std::move(part));
}

}  // namespace

void build_shelters(Model& model, double growth) {
  const Site& site = model.site;
  for (std::size_t k = 0; k < site.dens.size(); ++k) build_den(model, site.dens[k], k);
  for (std::size_t k = 0; k < site.plantings.size(); ++k) {
    build_planting(model, site.plantings[k], k, growth);
  }
  for (std::size_t k = 0; k < site.waters.size(); ++k) build_water(model, site.waters[k], k);
  for (std::size_t k = 0; k < site.houses.size(); ++k) build_house(model, site.houses[k], k);
  const std::optional<ground::FarGround> far = ground::far_ground(site, model.origin);
  if (far)
    for (const std::string& note : far->notes) model.notes.push_back("surroundings: " + note);
  for (std::size_t k = 0; k < site.surroundings.size(); ++k) {
    build_surrounding(model, site.surroundings[k], k, growth, far);
  }
}

}  // namespace hummock
