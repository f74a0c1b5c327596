#include "engine/entry/open_vestibule.h"

#include <fmt/format.h>

#include "engine/barrier/barrier.h"
#include "engine/model/body_scene.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::entry {

namespace {

// The vestibule, and as much of the yard before its gate as is there.
Polygon open_yard(const Model& model, const Gateway& g, const Polygon& box) {
  const Vec2 inwards = left_of(geom::unit(g.b - g.a));
  double depth = kYardDepth;
  const auto within = [&] {
    return geom::contains(model.outline, g.a + inwards * depth) &&
           geom::contains(model.outline, g.b + inwards * depth);
  };
  while (depth > 0.1 && !within()) depth *= 0.5;
  Polygon outline = box;  // a, d, c, b
  outline.push_back(g.b + inwards * depth);
  outline.push_back(g.a + inwards * depth);
  return outline;
}

Panel wall_panel(const Model& model, const barrier::Stretch& s, int section) {
  Panel panel;
  panel.section = section;
  panel.a = s.a;
  panel.b = s.b;
  panel.ground_a = geom::height_at(model.ground, s.a);
  panel.ground_b = geom::height_at(model.ground, s.b);
  panel.foot_a = s.foot_a;
  panel.foot_b = s.foot_b;
  panel.top_a = s.top_a;
  panel.top_b = s.top_b;
  panel.part = s.part;
  return panel;
}

void take_walls(Model& yard, int gateway, const std::string& name) {
  Section walls = yard.site.boundary.sections[static_cast<std::size_t>(
      yard.gateways[static_cast<std::size_t>(gateway)].section)];
  walls.name = name;
  walls.overhang.reset();
  const int section = static_cast<int>(yard.site.boundary.sections.size());
  std::vector<Panel> panels;
  for (const barrier::Chain& chain : barrier::barrier_of(yard).chains) {
    if (chain.kind != barrier::ChainKind::vestibule || chain.index != gateway) continue;
    for (const barrier::Stretch& s : chain.stretches) {
      if (!s.told_elsewhere) panels.push_back(wall_panel(yard, s, section));
    }
  }
  yard.site.boundary.sections.push_back(walls);
  yard.panels = std::move(panels);
}

Model opened(const Model& model, int gateway) {
  Model yard = model;
  const Gateway g = model.gateways[static_cast<std::size_t>(gateway)];
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  take_walls(yard, gateway, gate.name + " vestibule");
  yard.outline = open_yard(model, g, barrier::vestibule_outline(model, gateway));
  yard.edge_of.assign(yard.outline.size(), 0);
  yard.overhangs.clear();
  yard.gateways.clear();
  yard.site.leap_start.reset();
  if (g.leaf_part >= 0) {
    Part& leaf = yard.parts[static_cast<std::size_t>(g.leaf_part)];
    leaf.mesh = {};
    leaf.blocks_body = false;
  }
  yard.body_scene = body_scene_of(yard);
  return yard;
}

}  // namespace

VestibuleEscape escape_from_vestibule(const Model& model, int gateway,
                                      const leap::Settings& settings) {
  VestibuleEscape escape;
  if (barrier::vestibule_outline(model, gateway).empty()) return escape;
  leap::Settings plain = settings;
  plain.remedies = false;
  plain.required_margin = 1.0;
  const leap::Result result = leap::analyse(opened(model, gateway), plain);
  const bool found =
      result.escape_leap_m && *result.escape_leap_m <= model.site.species.leap_height.value;
  escape.out = found || !result.complete;
  if (found) {
    escape.leap_m = *result.escape_leap_m;
    escape.words = fmt::format("into the vestibule and out {} with a leap of {:.2f} m",
                               result.how.empty() ? "over its walls" : result.how, escape.leap_m);
  } else if (escape.out) {
    escape.words = "into the vestibule; the search for a way out of it stopped early";
  }
  return escape;
}

}  // namespace hummock::entry
