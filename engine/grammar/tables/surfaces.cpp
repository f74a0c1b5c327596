// What the ground is made of, and what is set out on it.
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

bool is_lamp(const Station& s) {
  return s.kind == StationKind::heat_lamp;
}
void check_has_a_place(const TableCursor& table, const Station&) {
  if (table.has("at") || table.has("on")) return;
  table.refuse("at", "neither at nor on", "at = [x, y], or on = the name of an object or den");
}

}  // namespace

const Table& surface_table() {
  static const Table table = table_of<Surfacing>(
      "what the ground is made of; a later one lies over an earlier one", "a surface",
      {
          name_row(&Surfacing::name, "surface"),
          outline_row(&Surfacing::outline, "where it lies"),
          {.key = "material",
           .kind = Kind::choice,
           .meaning = "of its top",
           .needed = true,
           .words = {"sand", "soil", "loam", "litter", "gravel", "turf", "rock", "concrete"},
           .group = "What it is",
           .member = of(&Surfacing::material)},
          {.key = "depth",
           .kind = Kind::length,
           .meaning = "of the material, from the ground down",
           .range = {0.0, 100.0, "m", true},
           .absent = "not known: deep enough for nothing that is asked",
           .member = of(&Surfacing::depth)},
          {.key = "drains",
           .kind = Kind::flag,
           .meaning = "it lets rain through",
           .member = of(&Surfacing::drains)},
      });
  return table;
}

const Table& station_table() {
  static const Table table = [] {
    Table t = table_of<Station>(
        "food, water, lamps and what else is set out", "",
        {
            name_row(&Station::name, "station"),
            {.key = "kind",
             .kind = Kind::choice,
             .meaning = "what it is; a water point is fed by a pipe, a bowl by hand",
             .needed = true,
             .words = {"food", "water bowl", "water point", "enrichment", "sunning rock",
                       "heat lamp", "scale", "camera"},
             .group = "What it is",
             .member = of(&Station::kind)},
            {.key = "at",
             .kind = Kind::point,
             .meaning = "where it stands",
             .absent = "the middle of what it is on",
             .group = "Place",
             .member = of(&Station::at),
             .before = check<Station>(check_has_a_place)},
            {.key = "on",
             .kind = Kind::text,
             .meaning = "name of the object or den on whose top it stands",
             .absent = "the ground, or the floor of a house",
             .group = "Place",
             .member = of(&Station::on)},
            {.key = "z",
             .kind = Kind::length,
             .meaning = "of its lowest part, above what it is on",
             .range = {0.0, 30.0, "m"},
             .group = "Place",
             .member = of(&Station::z)},
            {.key = "reach",
             .kind = Kind::length,
             .meaning = "how near the animal must come to use it",
             .range = {0.0, 5.0, "m"},
             .member = of(&Station::reach)},
            {.key = "guard",
             .kind = Kind::flag,
             .meaning = "a guard keeps the animal off it",
             .only = "heat lamp",
             .when = when<Station>(is_lamp),
             .member = of(&Station::guard)},
        });
    t.a = [](const void* s) {
      return is_lamp(*static_cast<const Station*>(s)) ? "a heat lamp"
                                                      : "a station that is no heat lamp";
    };
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
