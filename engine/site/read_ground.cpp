#include <string>

#include "engine/site/site_tables.h"

namespace hummock {
namespace {

constexpr Range kLevel{-500.0, 9100.0, "m above datum"};
constexpr Range kReach{0.0, 10000.0, "m", true};
constexpr Range kRise{0.0, 200.0, "m", true};

FormKind form_kind(const std::string& word) {
  if (word == "mound") return FormKind::mound;
  if (word == "hollow") return FormKind::hollow;
  if (word == "ridge") return FormKind::ridge;
  if (word == "bench") return FormKind::bench;
  return word == "slope" ? FormKind::slope : FormKind::smooth;
}

GroundForm read_form(TableCursor table) {
  GroundForm out;
  out.where = table.where();
  const std::string kind =
      table.choice("kind", {"mound", "hollow", "ridge", "bench", "slope", "smooth"});
  out.kind = form_kind(kind);
  switch (out.kind) {
    case FormKind::mound:
      out.at = table.point("at");
      out.radius = table.number("radius", kReach);
      out.height = table.number("height", kRise);
      break;
    case FormKind::hollow:
      out.at = table.point("at");
      out.radius = table.number("radius", kReach);
      out.height = table.number("depth", kRise);
      break;
    case FormKind::ridge:
      out.path = table.path("path", 2);
      out.radius = table.number("radius", kReach);
      out.height = table.number("height", kRise);
      break;
    case FormKind::bench:
      out.outline = table.polygon("outline");
      out.level = table.number("level", kLevel);
      out.batter = table.number("batter", {0.0, 1000.0, "m"}, out.batter);
      break;
    case FormKind::slope:
      out.at = table.point("at");
      out.angle = table.angle("angle", {0.0, 60.0, "degrees"});
      out.downhill = table.angle("downhill", {-360.0, 360.0, "degrees clockwise from +y"});
      if (table.has("outline")) out.outline = table.polygon("outline");
      break;
    case FormKind::smooth:
      out.radius = table.number("radius", kReach);
      if (table.has("outline")) out.outline = table.polygon("outline");
      break;
  }
  table.done("a " + kind);
  return out;
}

Soil read_soil(TableCursor& table) {
  const std::string word = table.choice("soil", {"unknown", "sand", "loam", "clay"}, "unknown");
  if (word == "sand") return Soil::sand;
  if (word == "loam") return Soil::loam;
  return word == "clay" ? Soil::clay : Soil::unknown;
}

void refuse_unless_one_source(const TableCursor& table) {
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

}  // namespace

Ground read_ground(TableCursor table, const std::filesystem::path& folder) {
  Ground out;
  out.where = table.where();
  refuse_unless_one_source(table);
  out.level = table.maybe_number("level", kLevel);
  if (table.has("raster")) out.raster = read_file_key(table, "raster", folder, "a raster file");
  if (table.has("points")) {
    out.points = read_file_key(table, "points", folder, "a CSV file of x,y,z points");
  }
  out.cell = table.number("cell", {0.005, 50.0, "m"}, out.cell);
  out.margin = table.number("margin", {0.0, 1000.0, "m"}, out.margin);
  out.soil_depth = table.maybe_number("soil_depth", {0.0, 100.0, "m", true});
  out.soil = read_soil(table);
  for (const TableCursor& one : table.tables("form")) out.forms.push_back(read_form(one));
  table.done("the ground");
  return out;
}

}  // namespace hummock
