// Stretches of fence and what is built onto them.
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kSurfaces{"rock", "wood", "bark", "smooth"};

bool is_mesh(const Section& s) {
  return s.kind == SheetKind::mesh;
}

}  // namespace

const Table& overhang_table() {
  static const Table table = table_of<Overhang>(
      "an overhang towards the inside", "an overhang",
      {
          {.key = "length",
           .kind = Kind::length,
           .meaning = "along the panel",
           .needed = true,
           .range = {0.0, 5.0, "m", true},
           .member = of(&Overhang::length)},
          {.key = "angle",
           .kind = Kind::angle,
           .meaning = "above the horizontal",
           .needed = true,
           .range = {-60.0, 89.0, "degrees above horizontal"},
           .member = of(&Overhang::angle)},
          {.key = "profile",
           .kind = Kind::choice,
           .meaning = "noted; a curved one is answered as the straight one of its length and angle",
           .words = {"straight", "curved"},
           .member = of(&Overhang::profile)},
      });
  return table;
}

const Table& apron_table() {
  static const Table table = table_of<Apron>("a sheet laid against digging", "an apron",
                                             {
                                                 {.key = "length",
                                                  .kind = Kind::length,
                                                  .meaning = "away from the fence",
                                                  .needed = true,
                                                  .range = {0.0, 20.0, "m", true},
                                                  .member = of(&Apron::length)},
                                                 {.key = "depth",
                                                  .kind = Kind::length,
                                                  .meaning = "how deep it lies",
                                                  .range = {0.0, 5.0, "m below ground"},
                                                  .member = of(&Apron::depth)},
                                                 {.key = "side",
                                                  .kind = Kind::choice,
                                                  .meaning = "the side of the fence it lies on",
                                                  .words = {"inside", "outside"},
                                                  .member = of(&Apron::side)},
                                             });
  return table;
}

const Table& footing_table() {
  static const Table table = table_of<Footing>("concrete under the line", "a footing",
                                               {
                                                   {.key = "depth",
                                                    .kind = Kind::length,
                                                    .meaning = "of its underside",
                                                    .needed = true,
                                                    .range = {0.0, 10.0, "m below ground", true},
                                                    .member = of(&Footing::depth)},
                                                   {.key = "width",
                                                    .kind = Kind::length,
                                                    .meaning = "across the line",
                                                    .range = {0.0, 5.0, "m", true},
                                                    .member = of(&Footing::width)},
                                               });
  return table;
}

const Table& section_table() {
  static const Table table = [] {
    Table t = table_of<Section>(
        "every edge belongs to exactly one", "",
        {
            name_row(&Section::name, "section"),
            {.key = "edges",
             .kind = Kind::edges,
             .meaning = "the edges of the outline it runs along",
             .needed = true,
             .range = kEdges,
             .group = "What it is",
             .member = of(&Section::edges)},
            {.key = "kind",
             .kind = Kind::choice,
             .meaning = "what it is made of",
             .needed = true,
             .words = {"mesh", "solid", "glass"},
             .group = "What it is",
             .member = of(&Section::kind)},
            {.key = "height",
             .kind = Kind::length,
             .meaning = "above the ground at each post",
             .needed = true,
             .range = {0.1, 30.0, "m"},
             .member = of(&Section::height)},
            {.key = "fit",
             .kind = Kind::choice,
             .meaning = "raked follows the ground, stepped has level panels",
             .words = {"raked", "stepped"},
             .member = of(&Section::fit)},
            {.key = "panel",
             .kind = Kind::length,
             .meaning = "between posts; the last panel of an edge takes the rest evenly",
             .range = {0.1, 50.0, "m between posts"},
             .member = of(&Section::panel)},
            {.key = "overhang",
             .kind = Kind::table,
             .meaning = "towards the inside",
             .absent = "none",
             .group = "Top",
             .children = in(&Section::overhang),
             .table = overhang_table},
            {.key = "aperture",
             .kind = Kind::length,
             .meaning = "clear opening",
             .needed = true,
             .range = kAperture,
             .only = "mesh",
             .when = when<Section>(is_mesh),
             .step = kFine,
             .member = of(&Section::aperture)},
            {.key = "wire",
             .kind = Kind::length,
             .meaning = "wire diameter",
             .range = kWire,
             .only = "mesh",
             .when = when<Section>(is_mesh),
             .step = kFine,
             .member = of(&Section::wire)},
            {.key = "buried",
             .kind = Kind::length,
             .meaning = "vertical, from the ground's surface down",
             .range = {0.0, 10.0, "m below ground"},
             .group = "Below ground",
             .member = of(&Section::buried)},
            {.key = "apron",
             .kind = Kind::table,
             .meaning = "a sheet laid against digging",
             .absent = "none",
             .group = "Below ground",
             .children = in(&Section::apron),
             .table = apron_table},
            {.key = "footing",
             .kind = Kind::table,
             .meaning = "concrete under the fence line",
             .absent = "none",
             .group = "Below ground",
             .children = in(&Section::footing),
             .table = footing_table},
            {.key = "surface",
             .kind = Kind::choice,
             .meaning = "what a claw meets",
             .words = kSurfaces,
             .absent = "a mesh is mesh, the rest smooth",
             .group = "Surface",
             .member = of(&Section::surface)},
            {.key = "guest_view",
             .kind = Kind::flag,
             .meaning = "guests look in here",
             .group = "Guests",
             .member = of(&Section::guest_view)},
            {.key = "joint_gap",
             .kind = Kind::length,
             .meaning = "left between neighbouring panels",
             .range = {0.0, 1.0, "m"},
             .step = kFine,
             .member = of(&Section::joint_gap)},
            {.key = "cap",
             .kind = Kind::length,
             .meaning = "a smooth band from the top down; noted, not credited by any answer",
             .range = {0.0, 30.0, "m from the top down"},
             .group = "Top",
             .member = of(&Section::cap)},
            {.key = "hot_wire",
             .kind = Kind::flag,
             .meaning = "noted, never credited: the answers take it as off",
             .group = "Top",
             .member = of(&Section::hot_wire)},
        });
    t.a = [](const void* s) {
      static const Words kinds{"mesh", "solid", "glass"};
      return "a " + kinds[static_cast<std::size_t>(static_cast<const Section*>(s)->kind)] +
             " section";
    };
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
