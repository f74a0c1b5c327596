#include <string>

#include "engine/site/site_tables.h"

namespace hummock {
namespace {

constexpr Range kLength{0.0, 200.0, "m", true};
constexpr Range kTurn{-360.0, 360.0, "degrees"};

ObjectKind object_kind(const std::string& word) {
  if (word == "boulder") return ObjectKind::boulder;
  if (word == "log") return ObjectKind::log;
  if (word == "tree") return ObjectKind::tree;
  if (word == "box") return ObjectKind::box;
  if (word == "post") return ObjectKind::post;
  return word == "platform" ? ObjectKind::platform : ObjectKind::mesh;
}

Crown read_crown(TableCursor table) {
  Crown out;
  out.shape = table.choice("shape", {"ellipsoid", "cone", "cylinder"}, out.shape);
  out.size = table.size("size");
  out.base = table.number("base", {0.0, 100.0, "m above ground"}, out.base);
  out.leaf_area_density = table.number("leaf_area_density", {0.0, 20.0, "m²/m³"});
  out.bare = read_season(table, "bare");
  table.done("a crown");
  return out;
}

void read_tree(TableCursor& table, Object& out) {
  const auto trunk = table.numbers("trunk", 2, kLength);
  out.trunk_diameter = trunk[0];
  out.trunk_height = trunk[1];
  if (auto crown = table.table("crown")) out.crown = read_crown(*crown);
}

void read_mesh(TableCursor& table, Object& out, const std::filesystem::path& folder) {
  out.file = read_file_key(table, "file", folder, "a mesh file");
  out.scale = table.number("scale", {1e-6, 1e6, "m for one unit of the file"}, out.scale);
  out.up = table.choice("up", {"x", "y", "z"}, out.up);
}

}  // namespace

Object read_object(TableCursor table, int number, const std::filesystem::path& folder) {
  Object out;
  out.where = table.where();
  out.name = read_name(table, "object", number);
  const std::string kind =
      table.choice("kind", {"boulder", "log", "tree", "box", "post", "platform", "mesh"});
  out.kind = object_kind(kind);
  out.at = table.point("at");
  out.z = table.number("z", {-50.0, 100.0, "m above the ground"}, out.z);
  out.lean = table.angle("lean", {-90.0, 90.0, "degrees from upright"}, out.lean);
  out.turn = table.angle("turn", kTurn, out.turn);
  if (out.kind == ObjectKind::tree) {
    read_tree(table, out);
  } else if (out.kind == ObjectKind::mesh) {
    read_mesh(table, out, folder);
  } else {
    out.size = table.size("size");
  }
  if (out.kind == ObjectKind::boulder) {
    out.seed = static_cast<std::uint32_t>(table.integer("seed", 0, 2147483647, 0));
  }
  out.climbable = table.flag("climbable", out.climbable);
  if (table.has("surface")) {
    out.surface = table.choice("surface", {"rock", "wood", "bark", "smooth"});
  }
  table.done("a " + kind);
  return out;
}

Planting read_planting(TableCursor table, int number) {
  Planting out;
  out.where = table.where();
  out.name = read_name(table, "planting", number);
  out.outline = table.polygon("outline");
  out.height = table.number("height", {0.0, 50.0, "m", true});
  out.cover = table.number("cover", {0.0, 1.0, "share"});
  out.bare = read_season(table, "bare");
  table.done("a planting");
  return out;
}

Den read_den(TableCursor table, int number) {
  Den out;
  out.where = table.where();
  out.name = read_name(table, "den", number);
  out.at = table.point("at");
  out.size = table.size("size");
  out.turn = table.angle("turn", kTurn, out.turn);
  out.opening = table.number("opening", {0.0, 5.0, "m", true});
  table.done("a den");
  return out;
}

Burrow read_burrow(TableCursor table, int number) {
  Burrow out;
  out.where = table.where();
  out.name = read_name(table, "burrow", number);
  out.mouth = table.point("mouth");
  if (table.has("path")) out.path = table.path("path", 1);
  out.depth = table.number("depth", {0.0, 20.0, "m below ground", true});
  out.diameter = table.number("diameter", {0.0, 5.0, "m", true}, out.diameter);
  table.done("a burrow");
  return out;
}

Water read_water(TableCursor table, int number) {
  Water out;
  out.where = table.where();
  out.name = read_name(table, "water", number);
  out.outline = table.polygon("outline");
  if (table.has("level") == table.has("depth")) {
    table.refuse("level", table.has("level") ? "level and depth" : "neither level nor depth",
                 "one of level (m above datum) and depth (m)");
  }
  out.level = table.maybe_number("level", {-500.0, 9100.0, "m above datum"});
  out.depth = table.maybe_number("depth", {0.0, 50.0, "m", true});
  if (out.depth) {
    out.side_slope = table.angle("side_slope", {1.0, 89.0, "degrees"}, out.side_slope);
  }
  out.drain = table.flag("drain", out.drain);
  table.done(out.depth ? "a dug basin" : "water at a level");
  return out;
}

}  // namespace hummock
