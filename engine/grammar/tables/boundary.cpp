#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kSurfaces{"rock", "wood", "bark", "smooth"};

bool is_mesh(const Section& s) {
  return s.kind == SheetKind::mesh;
}

// A hole in a wall: a drain, a door or a vent.
template <class T>
std::vector<Row> hole_rows(Row name) {
  return {
      std::move(name),
      {.key = "edge",
       .kind = Kind::count,
       .meaning = "the edge of the outline it is in",
       .needed = true,
       .range = kEdges,
       .example = "edge number",
       .group = "Place",
       .member = of(&T::edge)},
      {.key = "from",
       .kind = Kind::length,
       .meaning = "where it begins along the edge, from its first corner",
       .needed = true,
       .range = kAlongEdge,
       .group = "Place",
       .member = of(&T::from)},
      {.key = "width",
       .kind = Kind::length,
       .meaning = "along the edge",
       .needed = true,
       .range = {0.0, 20.0, "m", true},
       .member = of(&T::width)},
      {.key = "height",
       .kind = Kind::length,
       .meaning = "from its sill up",
       .needed = true,
       .range = {0.0, 20.0, "m", true},
       .member = of(&T::height)},
      {.key = "sill",
       .kind = Kind::length,
       .meaning = "its lower edge above ground",
       .range = {0.0, 20.0, "m above ground"},
       .member = of(&T::sill)},
      {.key = "aperture",
       .kind = Kind::length,
       .meaning = "clear opening of its grille",
       .range = kAperture,
       .absent = "open",
       .step = kFine,
       .member = of(&T::aperture)},
  };
}

void check_side_gap(const TableCursor& table, const Gate& gate) {
  if (2.0 * gate.side_gap < gate.width) return;
  table.refuse("side_gap", plain_number(gate.side_gap), "less than half the gate's width");
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

const Table& vestibule_table() {
  static const Table table =
      table_of<Vestibule>("the two-door entry", "a vestibule",
                          {
                              {.key = "depth",
                               .kind = Kind::length,
                               .meaning = "outwards from the fence",
                               .needed = true,
                               .range = {0.0, 30.0, "m outwards", true},
                               .member = of(&Vestibule::depth)},
                              {.key = "second_gate",
                               .kind = Kind::flag,
                               .meaning = "it has an outer gate",
                               .member = of(&Vestibule::second_gate)},
                              {.key = "window",
                               .kind = Kind::flag,
                               .meaning = "the keeper sees in before opening",
                               .member = of(&Vestibule::window)},
                              {.key = "roofed",
                               .kind = Kind::flag,
                               .meaning = "it is closed above",
                               .member = of(&Vestibule::roofed)},
                          });
  return table;
}

const Table& gate_table() {
  static const Table table = [] {
    Table t = table_of<Gate>("a way in for keepers", "a gate",
                             {
                                 name_row(&Gate::name, "gate"),
                                 {.key = "edge",
                                  .kind = Kind::count,
                                  .meaning = "the edge of the outline it is in",
                                  .needed = true,
                                  .range = kEdges,
                                  .example = "edge number",
                                  .group = "Place",
                                  .member = of(&Gate::edge)},
                                 {.key = "from",
                                  .kind = Kind::length,
                                  .meaning = "along the edge from its first corner",
                                  .needed = true,
                                  .range = kAlongEdge,
                                  .group = "Place",
                                  .member = of(&Gate::from)},
                                 {.key = "width",
                                  .kind = Kind::length,
                                  .meaning = "along the edge",
                                  .needed = true,
                                  .range = {0.1, 20.0, "m"},
                                  .member = of(&Gate::width)},
                                 {.key = "height",
                                  .kind = Kind::length,
                                  .meaning = "with its gap no taller than its fence",
                                  .needed = true,
                                  .range = {0.1, 20.0, "m"},
                                  .member = of(&Gate::height)},
                                 {.key = "under_gap",
                                  .kind = Kind::length,
                                  .meaning = "between the leaf and the ground",
                                  .range = {0.0, 1.0, "m"},
                                  .step = kFine,
                                  .member = of(&Gate::under_gap)},
                                 {.key = "side_gap",
                                  .kind = Kind::length,
                                  .meaning = "between the leaf and its posts",
                                  .range = {0.0, 0.5, "m"},
                                  .step = kFine,
                                  .member = of(&Gate::side_gap)},
                                 {.key = "window",
                                  .kind = Kind::flag,
                                  .meaning = "in the gate's own leaf",
                                  .member = of(&Gate::window)},
                                 {.key = "opens_inwards",
                                  .kind = Kind::flag,
                                  .meaning = "it swings into the yard",
                                  .member = of(&Gate::opens_inwards)},
                                 {.key = "vestibule",
                                  .kind = Kind::table,
                                  .meaning = "the two-door entry behind it",
                                  .absent = "none",
                                  .children = in(&Gate::vestibule),
                                  .table = vestibule_table},
                             });
    t.check = check<Gate>(check_side_gap);
    return t;
  }();
  return table;
}

const Table& drain_table() {
  static const Table table = table_of<Drain>("a hole through the barrier", "a drain",
                                             hole_rows<Drain>(name_row(&Drain::name, "drain")));
  return table;
}

const Table& vent_table() {
  static const Table table =
      table_of<WallOpening>("openings in edges of the house's own outline", "a vent",
                            hole_rows<WallOpening>(name_row(&WallOpening::name, "vent")));
  return table;
}

const Table& door_table() {
  static const Table table = [] {
    Row name = name_row(&WallOpening::name, "");
    name.absent = "door";
    return table_of<WallOpening>("an opening in an edge of the house's own outline", "a door",
                                 hole_rows<WallOpening>(std::move(name)));
  }();
  return table;
}

const Table& boundary_table() {
  static const Table table = table_of<Boundary>(
      "the fence line and what stands on it", "a boundary",
      {
          outline_row(&Boundary::outline,
                      "corners in order, either way round; must not meet itself; do not repeat the "
                      "first"),
          {.key = "section",
           .kind = Kind::tables,
           .meaning = "every edge belongs to exactly one",
           .absent = "refused: every edge needs one",
           .children = in(&Boundary::sections),
           .table = section_table},
          {.key = "gate",
           .kind = Kind::tables,
           .meaning = "ways in for keepers",
           .children = in(&Boundary::gates),
           .table = gate_table},
          {.key = "drain",
           .kind = Kind::tables,
           .meaning = "holes through the barrier",
           .children = in(&Boundary::drains),
           .table = drain_table},
      });
  return table;
}

}  // namespace hummock::grammar
