// The fence line: gates, drains, and the other holes in walls.
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

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
