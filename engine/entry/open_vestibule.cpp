#include "engine/entry/open_vestibule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/barrier/barrier.h"
#include "engine/leap/rows/rests_on.h"
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
  panel.edge = s.side;
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

// The ground within the box, at the same nodes.
geom::Heightfield cropped(const geom::Heightfield& ground, const geom::Box2& box) {
  const geom::Grid& g = ground.grid;
  const auto node = [&](double v, double from, int n) {
    return std::clamp(static_cast<int>(std::floor((v - from) / g.cell)), 0, n - 1);
  };
  const int i0 = std::min(node(box.lo.x, g.x0, g.nx), g.nx - 2);
  const int j0 = std::min(node(box.lo.y, g.y0, g.ny), g.ny - 2);
  const int i1 = std::max(node(box.hi.x, g.x0, g.nx), i0 + 1);
  const int j1 = std::max(node(box.hi.y, g.y0, g.ny), j0 + 1);
  geom::Heightfield out;
  out.grid = g;
  out.grid.x0 = g.node(i0, j0).x;
  out.grid.y0 = g.node(i0, j0).y;
  out.grid.nx = i1 - i0 + 1;
  out.grid.ny = j1 - j0 + 1;
  for (int j = j0; j <= j1; ++j) {
    for (int i = i0; i <= i1; ++i) out.z.push_back(ground.at(i, j));
  }
  return out;
}

bool plans_meet(const geom::Box3& a, const geom::Box2& b) {
  return a.lo.x < b.hi.x && a.hi.x > b.lo.x && a.lo.y < b.hi.y && a.hi.y > b.lo.y;
}

// Sheets and twigs: what is left of them is what it was.
bool may_be_cut(PartKind kind) {
  return kind == PartKind::panel || kind == PartKind::gate || kind == PartKind::overhang ||
         kind == PartKind::roof || kind == PartKind::crown || kind == PartKind::planting;
}

// A side of the fence, a roof or a crown may run far, and be climbed on many thousands of pieces.
void forget_far_faces(Part& part, const geom::Box2& box) {
  std::erase_if(part.mesh.triangles, [&](const geom::Triangle& t) {
    geom::Box3 own;
    for (const std::uint32_t v : t) own.add(part.mesh.vertices[v]);
    return !plans_meet(own, box);
  });
}

// What is farther than kAbout from it is of no account: nothing is left by way of it. Solids
// stay whole.
void forget_the_rest(Model& yard) {
  constexpr double kAbout = 5.0;  // m; common practice, no source
  geom::Box2 box = geom::bounds(yard.outline);
  box.lo = box.lo - Vec2{kAbout, kAbout};
  box.hi = box.hi + Vec2{kAbout, kAbout};
  yard.ground = cropped(yard.ground, box);
  for (Part& part : yard.parts) {
    if (plans_meet(geom::bounds(part.mesh), box)) {
      if (may_be_cut(part.kind)) forget_far_faces(part, box);
      continue;
    }
    part.mesh = {};
    part.blocks_body = false;
  }
}

// The sides towards the rest of the yard lead nowhere out: closed to beyond any leap.
void close_towards_yard(Model& yard, int section) {
  constexpr double kNoLeap = 1e3;  // m; numeric, a setting
  const std::size_t n = yard.outline.size();
  for (std::size_t k = 3; k < n; ++k) {
    Panel panel;
    panel.section = section;
    panel.edge = static_cast<int>(k);
    panel.a = yard.outline[k];
    panel.b = yard.outline[(k + 1) % n];
    panel.ground_a = panel.foot_a = geom::height_at(yard.ground, panel.a);
    panel.ground_b = panel.foot_b = geom::height_at(yard.ground, panel.b);
    panel.top_a = panel.ground_a + kNoLeap;
    panel.top_b = panel.ground_b + kNoLeap;
    yard.panels.push_back(panel);
  }
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
  yard.edge_of.resize(yard.outline.size());
  std::iota(yard.edge_of.begin(), yard.edge_of.end(), 0);
  yard.site.boundary.outline = yard.outline;
  close_towards_yard(yard, static_cast<int>(yard.site.boundary.sections.size()) - 1);
  yard.overhangs.clear();
  yard.gateways.clear();
  yard.site.leap_start.reset();
  if (g.leaf_part >= 0) {
    Part& leaf = yard.parts[static_cast<std::size_t>(g.leaf_part)];
    leaf.mesh = {};
    leaf.blocks_body = false;
  }
  forget_the_rest(yard);
  yard.body_scene = body_scene_of(yard);
  return yard;
}

leap::Settings plain(leap::Settings settings) {
  settings.remedies = false;
  settings.required_margin = 1.0;
  return settings;
}

}  // namespace

VestibuleEscape escape_from_vestibule(const Model& model, int gateway,
                                      const leap::Settings& settings) {
  VestibuleEscape escape;
  if (barrier::vestibule_outline(model, gateway).empty()) return escape;
  escape.search = leap::analyse(opened(model, gateway), plain(settings));
  const leap::Result& result = *escape.search;
  const bool found =
      result.escape_leap_m && *result.escape_leap_m <= model.site.species.leap_height.value;
  escape.out = found || !result.complete;
  if (found) {
    escape.words =
        fmt::format("into the vestibule and out {} with a leap of {:.2f} m",
                    result.how.empty() ? "over its walls" : result.how, *result.escape_leap_m);
  } else if (escape.out) {
    escape.words = "into the vestibule; the search for a way out of it stopped early";
  }
  return escape;
}

RestsOn vestibule_rests_on(const Model& model, int gateway, const leap::Settings& settings,
                           const leap::Result& search, const Progress& progress) {
  return leap::what_it_rests_on(opened(model, gateway), plain(settings), search, progress);
}

}  // namespace hummock::entry
