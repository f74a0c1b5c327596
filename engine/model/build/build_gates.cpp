// Gates, vestibules and drains.
//
// A gate's bay is a real hole from post to post, from the ground to the gate's head: the leaf in it
// leaves `under_gap` above the highest ground across it and `side_gap` at either post. The
// vestibule is the gate's width, as tall as the fence there, its walls on the ground; its outer
// wall holds a hole like the gate's, closed by a second leaf when there is a second gate. What it
// is made of is the fence's own, its panels too: netting follows the ground, a rigid wall runs
// straight from post to post (fence_foot.h) and leaves a dip open. A footing is the fence's alone:
// the site file draws none below a vestibule.
#include <algorithm>
#include <cmath>

#include "engine/model/build/bays.h"
#include "engine/model/build/build_steps.h"
#include "engine/model/build/wall_mesh.h"
#include "engine/model/fence_foot.h"
#include "engine/model/optics.h"

namespace hummock {
namespace {

const Section& section_at(const Model& model, int section) {
  return model.site.boundary.sections[static_cast<std::size_t>(section)];
}

Part gate_part(const Model& model, const Gateway& g, PartKind kind, const std::string& suffix) {
  const Section& section = section_at(model, g.section);
  Part part;
  part.name = model.site.boundary.gates[static_cast<std::size_t>(g.gate)].name + suffix;
  part.kind = kind;
  part.source = g.gate;
  set_sheet(part, section.kind, section.aperture, section.wire, section.surface);
  return part;
}

int add_leaf(Model& model, const Gateway& g, Vec2 a, Vec2 b, double foot, double top,
             const std::string& suffix) {
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  Part part = gate_part(model, g, PartKind::gate, suffix);
  const double t = std::min(gate.side_gap / geom::distance(a, b), 0.49);
  append_wall(part.mesh,
              straight_wall(geom::lerp(a, b, t), geom::lerp(a, b, 1.0 - t), foot, foot, top, top));
  model.parts.push_back(std::move(part));
  return static_cast<int>(model.parts.size()) - 1;
}

double highest(const Wall& wall) {
  return *std::max_element(wall.foot.begin(), wall.foot.end());
}

// The vestibule's corners: a, b on the fence, c, d outside.
struct Box {
  Vec2 a, b, c, d;
  double top;
};

Box vestibule_box(const Model& model, std::size_t gateway, const Vestibule& v) {
  const Gateway& g = model.gateways[gateway];
  const Vec2 out = -geom::left_of(geom::unit(g.b - g.a)) * v.depth;
  const auto over = std::find_if(model.panels.begin(), model.panels.end(), [&](const Panel& p) {
    return p.gate == static_cast<int>(gateway);
  });
  return {g.a, g.b, g.b + out, g.a + out, std::max(over->top_a, over->top_b)};
}

void note_crossing(Model& model, const Gateway& g, const Box& box) {
  for (std::size_t k = 0; k < model.outline.size(); ++k) {
    const Vec2 p = model.outline[k];
    const Vec2 q = model.outline[(k + 1) % model.outline.size()];
    if (!geom::segments_meet(box.c, box.d, p, q)) continue;
    model.notes.push_back("the vestibule of '" +
                          model.site.boundary.gates[static_cast<std::size_t>(g.gate)].name +
                          "' runs into another stretch of the boundary");
    return;
  }
}

// Panels no longer than the fence's, from post to post.
void append_side(const Model& model, const Section& section, Vec2 a, Vec2 b, double top,
                 geom::Mesh& mesh) {
  if (kind_at_foot(section) == SheetKind::mesh) {
    append_wall(mesh, wall_on_ground(model.ground, a, b, top, top));
    return;
  }
  const int n =
      std::max(1, static_cast<int>(std::ceil(geom::distance(a, b) / section.panel - 1e-9)));
  for (int k = 0; k < n; ++k) {
    const Vec2 from = geom::lerp(a, b, 1.0 * k / n), to = geom::lerp(a, b, (k + 1.0) / n);
    const Wall wall = wall_on_ground(model.ground, from, to, top, top);
    append_wall(mesh, raised_foot(wall, wall.foot.front(), wall.foot.back()));
  }
}

void build_vestibule(Model& model, std::size_t index) {
  const Gateway g = model.gateways[index];
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  const Vestibule& v = *gate.vestibule;
  const Box box = vestibule_box(model, index, v);
  note_crossing(model, g, box);
  Wall outer = wall_on_ground(model.ground, box.d, box.c, box.top, box.top);
  const double sill = highest(outer);
  const double head = std::min(sill + gate.height, box.top);
  outer.holes.push_back({0.0, 1.0, -1e9, head});
  Part part = gate_part(model, g, PartKind::vestibule, " vestibule");
  const Section& section = section_at(model, g.section);
  append_side(model, section, box.d, box.a, box.top, part.mesh);
  append_wall(part.mesh, outer);
  append_side(model, section, box.b, box.c, box.top, part.mesh);
  if (v.roofed) {
    geom::append_quad(part.mesh, at_height(box.d, box.top), at_height(box.c, box.top),
                      at_height(box.b, box.top), at_height(box.a, box.top));
  }
  part.mesh = geom::weld(part.mesh, 0.0);
  model.gateways[index].vestibule_part = static_cast<int>(model.parts.size());
  model.parts.push_back(std::move(part));
  if (!v.second_gate) return;
  model.gateways[index].second_leaf_part =
      add_leaf(model, g, box.d, box.c, sill + gate.under_gap, head, " second gate");
}

void build_grilles(Model& model) {
  for (std::size_t k = 0; k < model.site.boundary.drains.size(); ++k) {
    const Drain& drain = model.site.boundary.drains[k];
    const int edge = model_edge(model, drain.edge);
    if (drain.aperture <= 0.0 || edge < 0) continue;
    const double from = along_model_edge(model, edge, drain.from, drain.width);
    const double sill = drain.sill + geom::height_at(model.ground, on_edge(model.outline, edge,
                                                                           from + drain.width / 2));
    Part part;
    part.name = drain.name;
    part.kind = PartKind::drain_grille;
    part.source = static_cast<int>(k);
    const int s = section_of(model.site.boundary, drain.edge);
    set_sheet(part, SheetKind::mesh, drain.aperture, section_at(model, s).wire);
    append_wall(part.mesh, straight_wall(on_edge(model.outline, edge, from),
                                         on_edge(model.outline, edge, from + drain.width), sill,
                                         sill, sill + drain.height, sill + drain.height));
    model.parts.push_back(std::move(part));
  }
}

}  // namespace

void build_gates(Model& model) {
  for (std::size_t k = 0; k < model.gateways.size(); ++k) {
    const Gateway g = model.gateways[k];
    model.gateways[k].leaf_part = add_leaf(model, g, g.a, g.b, g.leaf_foot, g.leaf_top, "");
    const auto& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    if (gate.vestibule) build_vestibule(model, k);
  }
  build_grilles(model);
}

}  // namespace hummock
