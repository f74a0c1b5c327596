#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "engine/model/build/build_steps.h"
#include "engine/model/optics.h"
#include "engine/model/read/import_mesh.h"
#include "engine/model/shapes/object_solids.h"
#include "engine/site/doubtful.h"
#include "geometry/mesh/shells.h"

namespace hummock {
namespace {

constexpr double kWidestShare = 2.0;   // of the yard's diagonal
constexpr double kTallestTree = 60.0;  // m: a small yard may hold one

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

// A mesh wider than this is not furniture of the yard: most often its unit is not the metre.
double widest_mesh(const Model& model) {
  if (accepted(model.site.accept, "mesh-large")) return std::numeric_limits<double>::infinity();
  const geom::Box2 box = geom::bounds(model.outline);
  return std::max(kWidestShare * geom::length(box.hi - box.lo), kTallestTree);
}

// `where` names the object's key; refused unless the site accepts it.
geom::Mesh mesh_of(Model& model, const Object& object, const Progress& progress) {
  MeshAsk ask{object.file, object.scale, object.up, object.where, widest_mesh(model)};
  ask.where.key += ".file";
  ImportedMesh imported = import_mesh(ask, progress);
  imported.read.front().role = "mesh of " + object.name;
  model.read.insert(model.read.end(), imported.read.begin(), imported.read.end());
  return std::move(imported.mesh);
}

void build_solid(Model& model, const Object& object, std::size_t index, const Progress& progress) {
  Part part = solid_part(object, index);
  if (object.kind == ObjectKind::mesh) {
    part.mesh = set_mesh(model.ground, object, mesh_of(model, object, progress));
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
  part.round = crown_volume(model.ground, object, crown);
  part.closed = true;
  part.blocks_body = false;
  part.leaf_density = crown.leaf_area_density;
  part.bare = crown.bare;
  model.parts.push_back(std::move(part));
}

Object grown(Object object, double growth) {
  if (object.kind != ObjectKind::tree) return object;
  object.trunk_height *= 1.0 + growth;
  if (object.crown) {
    // Its lowest limbs stay where they are, and its top rises as the tree does.
    const double top = (1.0 + growth) * (object.crown->base + object.crown->size.z);
    object.crown->size = object.crown->size * (1.0 + growth);
    object.crown->size.z = top - object.crown->base;
  }
  return object;
}

}  // namespace

void build_objects(Model& model, double growth, const Progress& progress) {
  for (std::size_t k = 0; k < model.site.objects.size(); ++k) {
    const Object object = grown(model.site.objects[k], growth);
    refuse_outside(model, object);
    build_solid(model, object, k, progress);
    if (object.crown) build_crown(model, object, k);
  }
}

}  // namespace hummock
