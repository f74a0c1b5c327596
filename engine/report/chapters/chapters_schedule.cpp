// Quantities, and where every thing stands.
#include <fmt/format.h>

#include <cmath>

#include "engine/report/chapters/numbers.h"
#include "engine/report/chapters/parts.h"

namespace hummock::report {
namespace {

Table quantities_table(const std::vector<quantities::Row>& rows) {
  Table table;
  table.file = "quantities";
  table.title = "Schedule of quantities";
  table.columns = {{"Item", 2.4, false},
                   {"Where", 1.8, false},
                   {"Amount", 0.9, true},
                   {"Unit", 0.6, false},
                   {"Note", 2.6, false}};
  for (const quantities::Row& row : rows) {
    Cell amount = cell(row.amount);
    if (row.unit == "no.") amount.text = fmt::format("{:.0f}", row.amount);
    table.rows.push_back({text(row.item), text(row.where), amount, text(row.unit), text(row.note)});
  }
  table.note =
      "Lengths in plan along the line drawn, areas one side of the true sheet, earth in place; no "
      "laps, waste, fixings or labour. Stone at 2.65 t/m³ (from memory).";
  return table;
}

const char* to_string(ObjectKind kind) {
  switch (kind) {
    case ObjectKind::boulder:
      return "boulder";
    case ObjectKind::log:
      return "log";
    case ObjectKind::tree:
      return "tree";
    case ObjectKind::box:
      return "box";
    case ObjectKind::post:
      return "post";
    case ObjectKind::platform:
      return "platform";
    case ObjectKind::mesh:
      return "mesh";
  }
  return "";
}

std::string size_words(const Vec3& s) {
  return fmt::format("{:.2f} × {:.2f} × {:.2f}", s.x, s.y, s.z);
}

void add_row(Table& table, const Model& model, const std::string& name, const std::string& kind,
             Vec2 at, const std::string& size, double turn) {
  const Vec2 p = model.to_site(at);
  table.rows.push_back({text(name), text(kind), cell(p.x), cell(p.y),
                        cell(geom::height_at(model.ground, at)), text(size),
                        cell(turn / geom::kDegree)});
}

Table objects_table(const Model& model) {
  Table table;
  table.file = "objects";
  table.title = "Where things stand";
  table.columns = {{"Name", 1.8, false}, {"Kind", 1.0, false},  {"x", 0.8, true},
                   {"y", 0.8, true},     {"Ground", 0.8, true}, {"Size", 1.8, false},
                   {"Turn", 0.7, true}};
  const Site& site = model.site;
  const auto middle = [](const geom::Polygon& p) {
    const geom::Box2 box = geom::bounds(p);
    return (box.lo + box.hi) * 0.5;
  };
  const auto area = [](const geom::Polygon& p) {
    return fmt::format("{:.1f} m²", std::abs(geom::signed_area(p)));
  };
  for (const Object& o : site.objects) {
    const std::string size =
        o.kind == ObjectKind::tree
            ? fmt::format("trunk {:.2f} × {:.2f}", o.trunk_diameter, o.trunk_height)
            : (o.kind == ObjectKind::mesh ? fmt::format("scale {:g}", o.scale)
                                          : size_words(o.size));
    add_row(table, model, o.name, to_string(o.kind), o.at, size, o.turn);
  }
  for (const Den& d : site.dens) {
    add_row(table, model, d.name, "den", d.at, size_words(d.size), d.turn);
  }
  for (const Burrow& b : site.burrows) {
    add_row(table, model, b.name, "burrow", b.mouth, fmt::format("{:.2f} deep", b.depth), 0.0);
  }
  for (const Water& w : site.waters) {
    add_row(table, model, w.name, "water", middle(w.outline), area(w.outline), 0.0);
  }
  for (const Planting& p : site.plantings) {
    add_row(table, model, p.name, "planting", middle(p.outline), area(p.outline), 0.0);
  }
  for (const House& h : site.houses) {
    add_row(table, model, h.name, "house", middle(h.outline), area(h.outline), 0.0);
  }
  table.note =
      "Metres and degrees, coordinates of the site file; ground is the height of the ground "
      "there, above the datum. Areas stand at their middle.";
  return table;
}

}  // namespace

void add_quantities(Chapter& chapter, const Sources& sources) {
  chapter.blocks.push_back(quantities_table(*sources.results.quantities));
}

Chapter schedule_chapter(const Sources& sources) {
  Chapter chapter{"schedule", "What to order, and where things stand", "", {}};
  add_parts(chapter, sources);
  Table objects = objects_table(sources.model);
  if (!objects.rows.empty()) chapter.blocks.push_back(objects);
  return chapter;
}

}  // namespace hummock::report
