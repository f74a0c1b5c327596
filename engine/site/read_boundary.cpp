#include <string>

#include "engine/site/site_tables.h"

namespace hummock {
namespace {

constexpr int kManyEdges = 100000;
constexpr Range kAperture{0.001, 1.0, "m"};
constexpr Range kWire{0.0002, 0.05, "m"};

SheetKind sheet_kind(const std::string& word) {
  if (word == "mesh") return SheetKind::mesh;
  return word == "solid" ? SheetKind::solid : SheetKind::glass;
}

Overhang read_overhang(TableCursor table) {
  Overhang out;
  out.length = table.number("length", {0.0, 5.0, "m", true});
  out.angle = table.angle("angle", {-60.0, 89.0, "degrees above horizontal"});
  table.done("an overhang");
  return out;
}

Apron read_apron(TableCursor table) {
  Apron out;
  out.length = table.number("length", {0.0, 20.0, "m", true});
  out.depth = table.number("depth", {0.0, 5.0, "m below ground"}, out.depth);
  out.side = table.choice("side", {"inside", "outside"}, "inside") == "inside" ? Side::inside
                                                                               : Side::outside;
  table.done("an apron");
  return out;
}

Section read_section(TableCursor table, int number) {
  Section out;
  out.where = table.where();
  out.name = read_name(table, "section", number);
  out.edges = table.integers("edges", 0, kManyEdges);
  const std::string kind = table.choice("kind", {"mesh", "solid", "glass"});
  out.kind = sheet_kind(kind);
  out.height = table.number("height", {0.1, 30.0, "m"});
  out.fit =
      table.choice("fit", {"raked", "stepped"}, "raked") == "raked" ? Fit::raked : Fit::stepped;
  out.panel = table.number("panel", {0.1, 50.0, "m between posts"}, out.panel);
  if (auto overhang = table.table("overhang")) out.overhang = read_overhang(*overhang);
  if (out.kind == SheetKind::mesh) {
    out.aperture = table.number("aperture", kAperture);
    out.wire = table.number("wire", kWire, out.wire);
  }
  out.buried = table.number("buried", {0.0, 10.0, "m below ground"}, out.buried);
  if (auto apron = table.table("apron")) out.apron = read_apron(*apron);
  if (auto footing = table.table("footing")) out.footing = read_footing(*footing);
  if (table.has("surface"))
    out.surface = table.choice("surface", {"rock", "wood", "bark", "smooth"});
  out.guest_view = table.flag("guest_view", out.guest_view);
  out.joint_gap = table.number("joint_gap", {0.0, 1.0, "m"}, out.joint_gap);
  table.done("a " + kind + " section");
  return out;
}

Vestibule read_vestibule(TableCursor table) {
  Vestibule out;
  out.depth = table.number("depth", {0.0, 30.0, "m outwards", true});
  out.second_gate = table.flag("second_gate", out.second_gate);
  out.window = table.flag("window", out.window);
  out.roofed = table.flag("roofed", out.roofed);
  table.done("a vestibule");
  return out;
}

Gate read_gate(TableCursor table, int number) {
  Gate out;
  out.where = table.where();
  out.name = read_name(table, "gate", number);
  out.edge = table.integer("edge", 0, kManyEdges);
  out.from = table.number("from", {0.0, 1e6, "m along the edge"});
  out.width = table.number("width", {0.1, 20.0, "m"});
  out.height = table.number("height", {0.1, 20.0, "m"});
  out.under_gap = table.number("under_gap", {0.0, 1.0, "m"}, out.under_gap);
  out.side_gap = table.number("side_gap", {0.0, 0.5, "m"}, out.side_gap);
  out.window = table.flag("window", out.window);
  out.opens_inwards = table.flag("opens_inwards", out.opens_inwards);
  if (auto vestibule = table.table("vestibule")) out.vestibule = read_vestibule(*vestibule);
  if (2.0 * out.side_gap >= out.width) {
    table.refuse("side_gap", plain_number(out.side_gap), "less than half the gate's width");
  }
  table.done("a gate");
  return out;
}

Drain read_drain(TableCursor table, int number) {
  Drain out;
  out.where = table.where();
  const WallOpening hole = read_hole(table, read_name(table, "drain", number), "a drain");
  out.name = hole.name;
  out.edge = hole.edge;
  out.from = hole.from;
  out.width = hole.width;
  out.height = hole.height;
  out.sill = hole.sill;
  out.aperture = hole.aperture;
  return out;
}

}  // namespace

Footing read_footing(TableCursor table) {
  Footing out;
  out.depth = table.number("depth", {0.0, 10.0, "m below ground", true});
  out.width = table.number("width", {0.0, 5.0, "m", true}, out.width);
  table.done("a footing");
  return out;
}

WallOpening read_hole(TableCursor& table, const std::string& name, const std::string& what) {
  WallOpening out;
  table.raw("name");
  out.name = name;
  out.edge = table.integer("edge", 0, kManyEdges);
  out.from = table.number("from", {0.0, 1e6, "m along the edge"});
  out.width = table.number("width", {0.0, 20.0, "m", true});
  out.height = table.number("height", {0.0, 20.0, "m", true});
  out.sill = table.number("sill", {0.0, 20.0, "m above ground"}, out.sill);
  if (table.has("aperture")) out.aperture = table.number("aperture", kAperture);
  table.done(what);
  return out;
}

Boundary read_boundary(TableCursor table) {
  Boundary out;
  out.where = table.where();
  out.outline = table.polygon("outline");
  for (const TableCursor& one : table.tables("section")) {
    out.sections.push_back(read_section(one, static_cast<int>(out.sections.size()) + 1));
  }
  for (const TableCursor& one : table.tables("gate")) {
    out.gates.push_back(read_gate(one, static_cast<int>(out.gates.size()) + 1));
  }
  for (const TableCursor& one : table.tables("drain")) {
    out.drains.push_back(read_drain(one, static_cast<int>(out.drains.size()) + 1));
  }
  table.done("a boundary");
  return out;
}

Roof read_roof(TableCursor table) {
  Roof out;
  out.where = table.where();
  const std::string kind = table.choice("kind", {"mesh", "solid"});
  out.kind = sheet_kind(kind);
  const TomlNode* outline = table.raw("outline");
  if (outline != nullptr && outline->kind == TomlNode::Kind::text) {
    table.choice("outline", {"boundary"});
  } else if (outline != nullptr) {
    out.outline = table.polygon("outline");
  }
  if (table.has("height") == table.has("above_fence")) {
    table.refuse("height",
                 table.has("height") ? "height and above_fence" : "neither height nor above_fence",
                 "one of height (m above datum) and above_fence (m)");
  }
  out.height = table.maybe_number("height", {-500.0, 9100.0, "m above datum"});
  out.above_fence = table.maybe_number("above_fence", {0.0, 30.0, "m above the fence tops"});
  out.sag = table.number("sag", {0.0, 5.0, "m"}, out.sag);
  if (out.kind == SheetKind::mesh) {
    out.aperture = table.number("aperture", kAperture);
    out.wire = table.number("wire", kWire, out.wire);
  }
  table.done("a " + kind + " roof");
  return out;
}

}  // namespace hummock
