#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

bool roof_is_mesh(const Roof& r) {
  return r.kind == SheetKind::mesh;
}

void check_one_height(const TableCursor& table, const Roof&) {
  if (table.has("height") != table.has("above_fence")) return;
  table.refuse("height",
               table.has("height") ? "height and above_fence" : "neither height nor above_fence",
               "one of height (m above datum) and above_fence (m)");
}

// The word "boundary" or corners.
Value read_roof_outline(TableCursor& table, const Row& row, const Source&) {
  const TomlNode* node = table.raw(row.key.c_str());
  if (node->kind != TomlNode::Kind::text) return table.polygon(row.key.c_str());
  table.choice(row.key.c_str(), {"boundary"});
  return {};
}

void check_held(const TableCursor& table, const House& house) {
  if (!house.temperature) return;
  const auto [low, high] = *house.temperature;
  if (low <= high) return;
  table.refuse("temperature", plain_number(low) + " above " + plain_number(high),
               "[low, high] with low <= high (°C)");
}

void check_hours_of_light(const TableCursor& table, const HouseLight& light) {
  if (light.least <= light.most) return;
  table.refuse("least", plain_number(light.least) + " above " + plain_number(light.most),
               "least <= most (hours of light a day)");
}

}  // namespace

const Table& roof_table() {
  static const Table table = [] {
    Table t =
        table_of<Roof>("omit for open sky", "",
                       {
                           {.key = "kind",
                            .kind = Kind::choice,
                            .meaning = "what it is made of",
                            .needed = true,
                            .words = {"mesh", "solid"},
                            .member = of(&Roof::kind)},
                           {.key = "outline",
                            .kind = Kind::outline,
                            .meaning = "\"boundary\", or corners; what lies outside it is open",
                            .absent = "\"boundary\"",
                            .group = "Place",
                            .member = of(&Roof::outline),
                            .read = read_roof_outline},
                           {.key = "height",
                            .kind = Kind::length,
                            .meaning = "above datum; or",
                            .range = kLevel,
                            .absent = "one of the two",
                            .member = of(&Roof::height),
                            .before = check<Roof>(check_one_height)},
                           {.key = "above_fence",
                            .kind = Kind::length,
                            .meaning = "above the fence tops",
                            .range = {0.0, 30.0, "m above the fence tops"},
                            .absent = "one of the two",
                            .member = of(&Roof::above_fence)},
                           {.key = "sag",
                            .kind = Kind::length,
                            .meaning = "at the middle",
                            .range = {0.0, 5.0, "m"},
                            .member = of(&Roof::sag)},
                           {.key = "aperture",
                            .kind = Kind::length,
                            .meaning = "clear opening of the mesh",
                            .needed = true,
                            .range = kAperture,
                            .only = "mesh",
                            .when = when<Roof>(roof_is_mesh),
                            .step = kFine,
                            .member = of(&Roof::aperture)},
                           {.key = "wire",
                            .kind = Kind::length,
                            .meaning = "wire diameter of the mesh",
                            .range = kWire,
                            .only = "mesh",
                            .when = when<Roof>(roof_is_mesh),
                            .step = kFine,
                            .member = of(&Roof::wire)},
                       });
    t.a = [](const void* r) {
      return roof_is_mesh(*static_cast<const Roof*>(r)) ? "a mesh roof" : "a solid roof";
    };
    return t;
  }();
  return table;
}

const Table& house_light_table() {
  constexpr Range kHours{0.0, 24.0, "h"};
  static const Table table =
      table_of<HouseLight>("lamps that follow the sun through the year", "a house's light",
                           {
                               {.key = "latitude",
                                .kind = Kind::angle,
                                .meaning = "whose days are followed, north",
                                .range = {-90.0, 90.0, "degrees"},
                                .absent = "the site's own",
                                .member = of(&HouseLight::latitude)},
                               {.key = "before",
                                .kind = Kind::number,
                                .meaning = "on before sunrise",
                                .range = kHours,
                                .member = of(&HouseLight::before)},
                               {.key = "after",
                                .kind = Kind::number,
                                .meaning = "on after sunset",
                                .range = kHours,
                                .member = of(&HouseLight::after)},
                               {.key = "least",
                                .kind = Kind::number,
                                .meaning = "of light a day",
                                .range = kHours,
                                .member = of(&HouseLight::least)},
                               {.key = "most",
                                .kind = Kind::number,
                                .meaning = "of light a day",
                                .range = kHours,
                                .member = of(&HouseLight::most),
                                .check = check<HouseLight>(check_hours_of_light)},
                           });
  return table;
}

const Table& house_table() {
  static const Table table =
      table_of<House>("indoor quarters", "a house",
                      {
                          name_row(&House::name, "house"),
                          outline_row(&House::outline, "its corners in order"),
                          {.key = "height",
                           .kind = Kind::length,
                           .meaning = "of its walls",
                           .needed = true,
                           .range = {0.1, 50.0, "m"},
                           .member = of(&House::height)},
                          {.key = "temperature",
                           .kind = Kind::numbers,
                           .meaning = "[low, high] held inside",
                           .range = {-40.0, 60.0, "°C"},
                           .least = 2,
                           .absent = "not given",
                           .member = of(&House::temperature),
                           .check = check<House>(check_held)},
                          {.key = "door",
                           .kind = Kind::table,
                           .meaning = "an opening in an edge of the house's own outline",
                           .absent = "none",
                           .children = in(&House::door),
                           .table = door_table},
                          {.key = "vents",
                           .kind = Kind::tables,
                           .meaning = "openings of the same sort",
                           .absent = "none",
                           .children = in(&House::vents),
                           .table = vent_table},
                          {.key = "hides",
                           .kind = Kind::count,
                           .meaning = "places to hide inside",
                           .range = {0, 1000, ""},
                           .member = of(&House::hides)},
                          {.key = "climb_places",
                           .kind = Kind::count,
                           .meaning = "places to climb inside",
                           .range = {0, 1000, ""},
                           .member = of(&House::climb_places)},
                          {.key = "footing",
                           .kind = Kind::table,
                           .meaning = "concrete under the walls, for digging",
                           .absent = "not known, taken as none",
                           .children = in(&House::footing),
                           .table = footing_table},
                          {.key = "floor",
                           .kind = Kind::choice,
                           .meaning = "a solid floor lets nothing dig in or out",
                           .words = {"earth", "solid"},
                           .member = of(&House::solid_floor)},
                          {.key = "light",
                           .kind = Kind::table,
                           .meaning = "lamps that follow the sun (hummock light)",
                           .absent = "not known",
                           .children = in(&House::light),
                           .table = house_light_table},
                      });
  return table;
}

}  // namespace hummock::grammar
