#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kKinds{"boulder", "log", "tree", "box", "post", "platform", "mesh"};

bool is_tree(const Object& o) {
  return o.kind == ObjectKind::tree;
}
bool object_is_mesh(const Object& o) {
  return o.kind == ObjectKind::mesh;
}
bool has_size(const Object& o) {
  return !is_tree(o) && !object_is_mesh(o);
}
bool is_boulder(const Object& o) {
  return o.kind == ObjectKind::boulder;
}

void set_trunk(Object& o, const Value& v) {
  const auto& n = std::get<Numbers>(v);
  o.trunk_diameter = n.at(0);
  o.trunk_height = n.at(1);
}
Value get_trunk(const Object& o) {
  return Numbers{o.trunk_diameter, o.trunk_height};
}

}  // namespace

const Table& crown_table() {
  static const Table table = table_of<Crown>("what a tree carries", "a crown",
                                             {
                                                 {.key = "shape",
                                                  .kind = Kind::choice,
                                                  .meaning = "the solid its leaves fill",
                                                  .words = {"ellipsoid", "cone", "cylinder"},
                                                  .member = of(&Crown::shape)},
                                                 {.key = "size",
                                                  .kind = Kind::size,
                                                  .meaning = "width, depth, height",
                                                  .needed = true,
                                                  .range = kSides,
                                                  .member = of(&Crown::size)},
                                                 {.key = "base",
                                                  .kind = Kind::length,
                                                  .meaning = "to its underside",
                                                  .range = {0.0, 100.0, "m above ground"},
                                                  .member = of(&Crown::base)},
                                                 {.key = "leaf_area_density",
                                                  .kind = Kind::number,
                                                  .meaning = "leaf area in a cubic metre",
                                                  .needed = true,
                                                  .range = {0.0, 20.0, "m²/m³"},
                                                  .member = of(&Crown::leaf_area_density)},
                                                 bare_row(&Crown::bare),
                                             });
  return table;
}

const Table& object_table() {
  static const Table table = [] {
    Table t = table_of<Object>(
        "furniture", "",
        {
            name_row(&Object::name, "object"),
            {.key = "kind",
             .kind = Kind::choice,
             .meaning = "what it is",
             .needed = true,
             .words = kKinds,
             .group = "What it is",
             .member = of(&Object::kind)},
            {.key = "at",
             .kind = Kind::point,
             .meaning = "its middle; inside the outline or its margin",
             .needed = true,
             .group = "Place",
             .member = of(&Object::at)},
            {.key = "z",
             .kind = Kind::length,
             .meaning = "lifted off the ground",
             .range = {-50.0, 100.0, "m above the ground"},
             .group = "Place",
             .member = of(&Object::z)},
            {.key = "lean",
             .kind = Kind::angle,
             .meaning = "from upright, towards its own +x",
             .range = {-90.0, 90.0, "degrees from upright"},
             .group = "Place",
             .member = of(&Object::lean)},
            {.key = "turn",
             .kind = Kind::angle,
             .meaning = "counter-clockwise, after the lean",
             .range = kTurn,
             .group = "Place",
             .member = of(&Object::turn)},
            {.key = "trunk",
             .kind = Kind::numbers,
             .meaning = "[diameter, height]",
             .needed = true,
             .range = kSides,
             .least = 2,
             .only = "tree",
             .when = when<Object>(is_tree),
             .member = by<Object>(set_trunk, get_trunk)},
            {.key = "crown",
             .kind = Kind::table,
             .meaning = "what it carries",
             .only = "tree",
             .when = when<Object>(is_tree),
             .absent = "none",
             .children = in(&Object::crown),
             .table = crown_table},
            {.key = "file",
             .kind = Kind::file,
             .meaning = "any file Assimp reads",
             .needed = true,
             .only = "mesh",
             .when = when<Object>(object_is_mesh),
             .example = "a mesh file",
             .member = of(&Object::file)},
            {.key = "scale",
             .kind = Kind::number,
             .meaning = "metres for one unit of the file",
             .range = {1e-6, 1e6, "m for one unit of the file"},
             .only = "mesh",
             .when = when<Object>(object_is_mesh),
             .step = 1e-6,
             .member = of(&Object::scale)},
            {.key = "up",
             .kind = Kind::choice,
             .meaning = "its upward axis",
             .words = {"x", "y", "z"},
             .only = "mesh",
             .when = when<Object>(object_is_mesh),
             .member = of(&Object::up)},
            {.key = "size",
             .kind = Kind::size,
             .meaning = "boulder, box: length, width, height; log: length, diameter, diameter; "
                        "post: diameter, diameter, height; platform: length, width, height of the "
                        "deck's top",
             .needed = true,
             .range = kSides,
             .only = "all but tree and mesh",
             .when = when<Object>(has_size),
             .member = of(&Object::size)},
            {.key = "seed",
             .kind = Kind::count,
             .meaning = "its shape; same seed, same stone",
             .range = {0, 2147483647, ""},
             .only = "boulder",
             .when = when<Object>(is_boulder),
             .member = of(&Object::seed)},
            {.key = "climbable",
             .kind = Kind::flag,
             .meaning = "can be scrambled up at any slope, whatever the species climbs",
             .group = "Surface",
             .member = of(&Object::climbable)},
            {.key = "surface",
             .kind = Kind::choice,
             .meaning = "what a claw meets",
             .words = {"rock", "wood", "bark", "smooth"},
             .absent = "boulder, mesh: rock; log, tree: bark; else wood",
             .group = "Surface",
             .member = of(&Object::surface)},
        });
    t.a = [](const void* o) {
      return "a " + kKinds[static_cast<std::size_t>(static_cast<const Object*>(o)->kind)];
    };
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
