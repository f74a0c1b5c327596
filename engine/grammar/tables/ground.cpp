#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kForms{"mound", "hollow", "ridge", "bench", "slope", "smooth"};
constexpr Range kReach{0.0, 10000.0, "m", true};
constexpr Range kRise{0.0, 200.0, "m", true};

template <FormKind... kinds>
bool is_one_of(const GroundForm& f) {
  return ((f.kind == kinds) || ...);
}
template <FormKind... kinds>
Test forms() {
  return when<GroundForm>(is_one_of<kinds...>);
}

void check_one_source(const TableCursor& table, const Ground&) {
  std::string given;
  int count = 0;
  const char* second = "level";
  for (const char* key : {"level", "raster", "points"}) {
    if (!table.has(key)) continue;
    if (count++ > 0) given += " and ";
    given += key;
    second = key;
  }
  if (count == 1) return;
  table.refuse(second, count == 0 ? "none of level, raster and points" : given,
               "one of level, raster and points");
}

std::vector<Row> form_rows() {
  using F = FormKind;
  return {
      {.key = "kind",
       .kind = Kind::choice,
       .meaning = "mound, hollow: a raised cosine; ridge: the same across its path; bench: level; "
                  "slope: falls one way; smooth: a moving mean",
       .needed = true,
       .words = kForms,
       .member = of(&GroundForm::kind)},
      {.key = "at",
       .kind = Kind::point,
       .meaning = "mound, hollow: the middle; slope: the point that keeps its height",
       .needed = true,
       .only = "mound, hollow, slope",
       .when = forms<F::mound, F::hollow, F::slope>(),
       .group = "Place",
       .member = of(&GroundForm::at)},
      {.key = "path",
       .kind = Kind::path,
       .meaning = "its crest",
       .needed = true,
       .least = 2,
       .only = "ridge",
       .when = forms<F::ridge>(),
       .group = "Place",
       .member = of(&GroundForm::path)},
      {.key = "radius",
       .kind = Kind::length,
       .meaning = "its reach; smooth: of the mean",
       .needed = true,
       .range = kReach,
       .only = "mound, hollow, ridge, smooth",
       .when = forms<F::mound, F::hollow, F::ridge, F::smooth>(),
       .member = of(&GroundForm::radius)},
      {.key = "height",
       .kind = Kind::length,
       .meaning = "h·(1 + cos(πd/radius))/2 at distance d",
       .needed = true,
       .range = kRise,
       .only = "mound, ridge",
       .when = forms<F::mound, F::ridge>(),
       .member = of(&GroundForm::height)},
      {.key = "depth",
       .kind = Kind::length,
       .meaning = "the same downwards",
       .needed = true,
       .range = kRise,
       .only = "hollow",
       .when = forms<F::hollow>(),
       .member = of(&GroundForm::height)},
      {.key = "outline",
       .kind = Kind::outline,
       .meaning = "where it is level",
       .needed = true,
       .only = "bench",
       .when = forms<F::bench>(),
       .group = "Place",
       .member = of(&GroundForm::outline)},
      {.key = "level",
       .kind = Kind::length,
       .meaning = "its height above datum",
       .needed = true,
       .range = kLevel,
       .only = "bench",
       .when = forms<F::bench>(),
       .member = of(&GroundForm::level)},
      {.key = "batter",
       .kind = Kind::length,
       .meaning = "width over which it blends into the ground outside",
       .range = {0.0, 1000.0, "m"},
       .only = "bench",
       .when = forms<F::bench>(),
       .member = of(&GroundForm::batter)},
      {.key = "angle",
       .kind = Kind::angle,
       .meaning = "how steep it falls",
       .needed = true,
       .range = {0.0, 60.0, "degrees"},
       .only = "slope",
       .when = forms<F::slope>(),
       .member = of(&GroundForm::angle)},
      {.key = "downhill",
       .kind = Kind::angle,
       .meaning = "the way it falls, clockwise from +y",
       .needed = true,
       .range = {-360.0, 360.0, "degrees clockwise from +y"},
       .only = "slope",
       .when = forms<F::slope>(),
       .member = of(&GroundForm::downhill)},
      {.key = "outline",
       .kind = Kind::outline,
       .meaning = "where it acts",
       .only = "slope, smooth",
       .when = forms<F::slope, F::smooth>(),
       .absent = "everywhere",
       .group = "Place",
       .member = of(&GroundForm::outline)},
  };
}

}  // namespace

const Table& form_table() {
  static const Table table = [] {
    Table t = table_of<GroundForm>("earth shapes, added in order", "", form_rows());
    t.a = [](const void* f) {
      return "a " + kForms[static_cast<std::size_t>(static_cast<const GroundForm*>(f)->kind)];
    };
    return t;
  }();
  return table;
}

const Table& ground_table() {
  static const Table table = [] {
    Table t = table_of<Ground>(
        "the land and its earth shapes", "the ground",
        {
            {.key = "level",
             .kind = Kind::length,
             .meaning = "a plane",
             .range = kLevel,
             .absent = "one of the three",
             .group = "Source",
             .member = of(&Ground::level),
             .before = check<Ground>(check_one_source)},
            {.key = "raster",
             .kind = Kind::file,
             .meaning = "one plain file: GeoTIFF, Arc/Info or GRASS ASCII grid, Surfer grid, or "
                        "XYZ; band 1, metres, no CRS or a projected one in metres",
             .absent = "one of the three",
             .example = "a raster file",
             .group = "Source",
             .member = of(&Ground::raster)},
            {.key = "points",
             .kind = Kind::file,
             .meaning = "CSV with the header x,y,z; triangulated",
             .absent = "one of the three",
             .example = "a CSV file of x,y,z points",
             .group = "Source",
             .member = of(&Ground::points)},
            {.key = "cell",
             .kind = Kind::length,
             .meaning = "spacing of the heightfield; at most 40 million points in all",
             .range = {0.005, 50.0, "m"},
             .member = of(&Ground::cell)},
            {.key = "margin",
             .kind = Kind::length,
             .meaning = "ground modelled beyond the outline",
             .range = {0.0, 1000.0, "m"},
             .member = of(&Ground::margin)},
            {.key = "soil_depth",
             .kind = Kind::length,
             .meaning = "to rock or liner",
             .range = {0.0, 100.0, "m", true},
             .absent = "unlimited",
             .group = "Soil",
             .member = of(&Ground::soil_depth)},
            {.key = "soil",
             .kind = Kind::choice,
             .meaning = "for slopes of repose",
             .words = {"unknown", "sand", "loam", "clay"},
             .group = "Soil",
             .member = of(&Ground::soil)},
            {.key = "form",
             .kind = Kind::tables,
             .meaning = "earth shapes, added in order",
             .children = in(&Ground::forms),
             .table = form_table},
        });
    t.note = "Exactly one of `level`, `raster` and `points`.";
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
