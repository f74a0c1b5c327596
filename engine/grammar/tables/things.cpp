// Planting, dens, burrows, water.
#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

void check_one_depth(const TableCursor& table, const Water&) {
  if (table.has("level") != table.has("depth")) return;
  table.refuse("level", table.has("level") ? "level and depth" : "neither level nor depth",
               "one of level (m above datum) and depth (m)");
}
void check_never_bare(const TableCursor& table, const Planting& p) {
  if (!p.evergreen || !p.bare) return;
  table.refuse("evergreen", "true beside a bare season",
               "one of evergreen = true and bare, the days without leaves");
}
bool is_dug(const Water& w) {
  return w.depth.has_value();
}

}  // namespace

const Table& planting_table() {
  static const Table table = [] {
    Table t =
        table_of<Planting>("grass, shrub or litter: cover and light", "a planting",
                           {
                               name_row(&Planting::name, "planting"),
                               {.key = "kind",
                                .kind = Kind::choice,
                                .meaning = "what grows",
                                .words = {"unsaid", "grass", "reed", "shrub", "climber", "tree"},
                                .group = "What it is",
                                .member = of(&Planting::kind)},
                               outline_row(&Planting::outline, "where it grows"),
                               {.key = "height",
                                .kind = Kind::length,
                                .meaning = "above the ground",
                                .needed = true,
                                .range = {0.0, 50.0, "m", true},
                                .member = of(&Planting::height)},
                               {.key = "cover",
                                .kind = Kind::share,
                                .meaning = "of sight and light stopped over its height",
                                .needed = true,
                                .range = {0.0, 1.0, "share"},
                                .member = of(&Planting::cover)},
                               {.key = "leaf",
                                .kind = Kind::choice,
                                .meaning = "the sort of its leaves",
                                .words = {"unsaid", "broad", "needle"},
                                .group = "Leaves",
                                .member = of(&Planting::leaf)},
                               {.key = "evergreen",
                                .kind = Kind::flag,
                                .meaning = "it keeps its leaves all year; not with `bare`",
                                .group = "Leaves",
                                .member = of(&Planting::evergreen)},
                               bare_row(&Planting::bare),
                           });
    t.check = check<Planting>(check_never_bare);
    return t;
  }();
  return table;
}

const Table& den_table() {
  static const Table table =
      table_of<Den>("a nest box or hide", "a den",
                    {
                        name_row(&Den::name, "den"),
                        {.key = "at",
                         .kind = Kind::point,
                         .meaning = "its middle",
                         .needed = true,
                         .group = "Place",
                         .member = of(&Den::at)},
                        {.key = "size",
                         .kind = Kind::size,
                         .meaning = "length, width, height",
                         .needed = true,
                         .range = kSides,
                         .member = of(&Den::size)},
                        {.key = "turn",
                         .kind = Kind::angle,
                         .meaning = "counter-clockwise; its opening faces its own +x",
                         .range = kTurn,
                         .group = "Place",
                         .member = of(&Den::turn)},
                        {.key = "opening",
                         .kind = Kind::length,
                         .meaning = "its diameter",
                         .needed = true,
                         .range = {0.0, 5.0, "m", true},
                         .member = of(&Den::opening)},
                    });
  return table;
}

const Table& burrow_table() {
  static const Table table = table_of<Burrow>("a built burrow", "a burrow",
                                              {
                                                  name_row(&Burrow::name, "burrow"),
                                                  {.key = "mouth",
                                                   .kind = Kind::point,
                                                   .meaning = "where it opens",
                                                   .needed = true,
                                                   .group = "Place",
                                                   .member = of(&Burrow::mouth)},
                                                  {.key = "path",
                                                   .kind = Kind::path,
                                                   .meaning = "on from the mouth",
                                                   .least = 1,
                                                   .absent = "none",
                                                   .group = "Place",
                                                   .member = of(&Burrow::path)},
                                                  {.key = "depth",
                                                   .kind = Kind::length,
                                                   .meaning = "at its deepest",
                                                   .needed = true,
                                                   .range = {0.0, 20.0, "m below ground", true},
                                                   .member = of(&Burrow::depth)},
                                                  {.key = "diameter",
                                                   .kind = Kind::length,
                                                   .meaning = "of its tunnel",
                                                   .range = {0.0, 5.0, "m", true},
                                                   .absent = "not given",
                                                   .member = of(&Burrow::diameter)},
                                              });
  return table;
}

const Table& water_table() {
  static const Table table = [] {
    Table t = table_of<Water>("a pool or stream", "",
                              {
                                  name_row(&Water::name, "water"),
                                  outline_row(&Water::outline, "its rim"),
                                  {.key = "level",
                                   .kind = Kind::length,
                                   .meaning = "the ground is the bed; or",
                                   .range = kLevel,
                                   .absent = "one of the two",
                                   .member = of(&Water::level),
                                   .before = check<Water>(check_one_depth)},
                                  {.key = "depth",
                                   .kind = Kind::length,
                                   .meaning = "below the lowest rim: the basin is dug",
                                   .range = {0.0, 50.0, "m", true},
                                   .absent = "one of the two",
                                   .member = of(&Water::depth)},
                                  {.key = "side_slope",
                                   .kind = Kind::angle,
                                   .meaning = "of a dug basin",
                                   .range = {1.0, 89.0, "degrees"},
                                   .only = "with depth",
                                   .when = when<Water>(is_dug),
                                   .member = of(&Water::side_slope)},
                                  {.key = "drain",
                                   .kind = Kind::flag,
                                   .meaning = "it can be emptied",
                                   .member = of(&Water::drain)},
                              });
    t.a = [](const void* w) {
      return is_dug(*static_cast<const Water*>(w)) ? "a dug basin" : "water at a level";
    };
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
