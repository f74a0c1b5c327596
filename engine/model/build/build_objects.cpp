#include <fmt/format.h>

#include "engine/model/build/build_steps.h"
#include "engine/model/optics.h"
#include "engine/model/read/import_mesh.h"
#include "engine/model/shapes/object_solids.h"
#include "geometry/mesh/shells.h"

namespace hummock {
namespace {

Surface usual_surface(ObjectKind kind) {
  switch (kind) {
    case ObjectKind::boulder:
    case ObjectKind::mesh:
      return Surface::rock;
    case ObjectKind::log:
    case ObjectKind::tree:
      return Surface::bark;
    default:
      return Surface::wood;
  }
}

void refuse_outside(const Model& model, const Object& object) {
  if (geom::covers(model.ground, object.at)) return;
  Where where = object.where;
  where.key += ".at";
  const Vec2 at = model.to_site(object.at);
  throw InputError(where, fmt::format("[{:g}, {:g}]", at.x, at.y),
                   "a place on the ground: the boundary's box with ground.margin round it");
}

Part solid_part(const Object& object, std::size_t index) {
  Part part;
  part.name = object.name;
  part.kind = PartKind::object;
  part.source = static_cast<int>(index);
  part.surface = surface_named(object.surface, usual_surface(object.kind));
  part.climbable = object.climbable;
  part.closed = true;
  return part;
}

// Closed with its faces outwards, or said to be otherwise.
void judge_closing(Model& model, Part& part) {
  const std::size_t open = geom::open_edges(part.mesh);
  part.closed = open == 0;
  if (!part.closed) {
    model.notes.push_back("mesh '" + part.name + "' is not closed (" + std::to_string(open) +
                          " open edges): used for rays, not for volume");
    return;
  }
  // Shell by shell: a mirrored one hides behind the others' volume.
  if (geom::turn_shells_outwards(part.mesh) == 0) return;
  model.notes.push_back("mesh '" + part.name + "' faced inwards: turned inside out");
}

void build_solid(Model& model, const Object& object, std::size_t index) {
  Part part = solid_part(object, index);
  if (object.kind == ObjectKind::mesh) {
    Where where = object.where;
    where.key += ".file";
    part.mesh =
        set_mesh(model.ground, object, import_mesh(object.file, object.scale, object.up, where));
    judge_closing(model, part);
  } else {
    part.mesh = object_solid(model.ground, object);
  }
  model.object_part.push_back(static_cast<int>(model.parts.size()));
  model.parts.push_back(std::move(part));
}

void build_crown(Model& model, const Object& object, std::size_t index) {
  const Crown& crown = *object.crown;
  Part part;
  part.name = object.name;
  part.kind = PartKind::crown;
  part.source = static_cast<int>(index);
  part.surface = Surface::leaf;
  part.mesh = crown_solid(model.ground, object, crown);
  part.closed = true;
  part.blocks_body = false;
  part.leaf_area_density = crown.leaf_area_density;
  part.bare = crown.bare;
  model.parts.push_back(std::move(part));
}

Object grown(Object object, double growth) {
  if (object.kind != ObjectKind::tree) return object;
  object.trunk_height *= 1.0 + growth;
  if (object.crown) {
    object.crown->size = object.crown->size * (1.0 + growth);
    object.crown->base *= 1.0 + growth;
  }
  return object;
}

}  // namespace

void build_objects(Model& model, double growth) {
  for (std::size_t k = 0; k < model.site.objects.size(); ++k) {
    const Object object = grown(model.site.objects[k], growth);
    refuse_outside(model, object);
    build_solid(model, object, k);
    if (object.crown) build_crown(model, object, k);
  }
}

}  // namespace hummock
