#include <algorithm>
#include <cmath>

#include "engine/model/build/bands.h"
#include "engine/model/build/bays.h"
#include "engine/model/build/build_steps.h"
#include "engine/model/build/wall_mesh.h"
#include "engine/model/fence_foot.h"
#include "engine/model/optics.h"
#include "engine/model/shapes/solids.h"
#include "engine/model/shapes/steady_turn.h"

namespace hummock {
namespace {

constexpr double kPostDiameter = 0.06;  // m, common practice, no source
constexpr double kPostInGround = 0.5;   // m, common practice, no source
constexpr double kPostOffLine = 0.001;  // m, so that post and panel do not coincide
constexpr int kPostSides = 8;

double highest_ground(const geom::Heightfield& ground, Vec2 a, Vec2 b) {
  double highest = geom::height_at(ground, a);
  for (double t : geom::ground_breaks(ground, a, b)) {
    highest = std::max(highest, geom::height_at(ground, geom::lerp(a, b, t)));
  }
  return highest;
}

Panel plain_panel(const Model& model, const Bay& bay) {
  const Section& section = model.site.boundary.sections[static_cast<std::size_t>(bay.section)];
  Panel p;
  p.section = bay.section;
  p.edge = model.edge_of[static_cast<std::size_t>(bay.edge)];
  p.a = on_edge(model.outline, bay.edge, bay.from);
  p.b = on_edge(model.outline, bay.edge, bay.to);
  p.ground_a = geom::height_at(model.ground, p.a);
  p.ground_b = geom::height_at(model.ground, p.b);
  const bool stepped = section.fit == Fit::stepped;
  p.foot_a = stepped ? std::max(p.ground_a, p.ground_b) : p.ground_a;
  p.foot_b = stepped ? p.foot_a : p.ground_b;
  p.top_a = p.foot_a + section.height;
  p.top_b = p.foot_b + section.height;
  return p;
}

// The gate's place, and the panel over its head.
Gateway gateway_in(const Model& model, const Bay& bay, const Panel& p) {
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(bay.gate)];
  const double sill = highest_ground(model.ground, p.a, p.b);
  Gateway g;
  g.gate = bay.gate;
  g.section = bay.section;
  g.a = p.a;
  g.b = p.b;
  g.ground_a = p.ground_a;
  g.ground_b = p.ground_b;
  g.leaf_foot = sill + gate.under_gap;
  g.leaf_top = sill + gate.height;
  return g;
}

void raise_over_gate(Panel& p, const Gateway& g, int gateway) {
  p.gate = gateway;
  p.foot_a = p.foot_b = g.leaf_top;
  p.top_a = std::max(p.top_a, g.leaf_top);
  p.top_b = std::max(p.top_b, g.leaf_top);
}

// Holes of the drains on this bay, in the panel's own measure.
std::vector<WallHole> drain_holes(const Model& model, const Bay& bay) {
  std::vector<WallHole> holes;
  for (const Drain& drain : model.site.boundary.drains) {
    if (model_edge(model, drain.edge) != bay.edge) continue;
    const double from = along_model_edge(model, bay.edge, drain.from, drain.width);
    const double width = bay.to - bay.from;
    const WallHole hole{(from - bay.from) / width, (from + drain.width - bay.from) / width, 0, 0};
    if (hole.to <= 0.0 || hole.from >= 1.0) continue;
    const Vec2 middle = on_edge(model.outline, bay.edge, from + drain.width / 2);
    const double sill = geom::height_at(model.ground, middle) + drain.sill;
    holes.push_back({hole.from, hole.to, sill, sill + drain.height});
  }
  return holes;
}

Wall panel_wall(const Model& model, const Bay& bay, const Panel& p) {
  const Section& section = model.site.boundary.sections[static_cast<std::size_t>(p.section)];
  const double length = geom::distance(p.a, p.b);
  const double t = std::min(0.5 * section.joint_gap / length, 0.49);
  const Vec2 a = geom::lerp(p.a, p.b, t);
  const Vec2 b = geom::lerp(p.a, p.b, 1.0 - t);
  const double top_a = p.top_a + (p.top_b - p.top_a) * t;
  const double top_b = p.top_a + (p.top_b - p.top_a) * (1.0 - t);
  const bool raked = p.gate < 0 && section.fit == Fit::raked;
  Wall wall = straight_wall(a, b, p.foot_a, p.foot_b, top_a, top_b);
  if (raked && follows_ground(section)) {
    wall = wall_on_ground(model.ground, a, b, top_a, top_b);
  } else if (raked) {
    const auto rail = [&](double share) { return p.foot_a + (p.foot_b - p.foot_a) * share; };
    // Straight from post to post, or on the ground where that is higher.
    wall = raised_foot(wall_on_ground(model.ground, a, b, top_a, top_b), rail(t), rail(1.0 - t));
  }
  if (p.gate < 0) wall.holes = drain_holes(model, bay);
  for (WallHole& hole : wall.holes) {
    hole.from = (hole.from - t) / (1.0 - 2.0 * t);
    hole.to = (hole.to - t) / (1.0 - 2.0 * t);
  }
  return wall;
}

// How far along the fence a post stands from its joint: beside a gate's opening and beside a joint
// that is left open, so that it covers neither.
Vec2 beside(const Model& model, const Panel* before, const Panel* after) {
  const Vec2 on = after != nullptr ? geom::unit(after->b - after->a) : Vec2{};
  const Vec2 back = before != nullptr ? geom::unit(before->a - before->b) : Vec2{};
  if (after != nullptr && after->gate >= 0) return back * (kPostDiameter / 2);
  if (before != nullptr && before->gate >= 0) return on * (kPostDiameter / 2);
  if (before == nullptr || after == nullptr) return {};
  const auto gap = [&](const Panel& p) {
    return model.site.boundary.sections[static_cast<std::size_t>(p.section)].joint_gap;
  };
  const double open = gap(*before) + gap(*after);
  return open > 0.0 ? on * (kPostDiameter / 2 + gap(*after) / 2) : Vec2{};
}

// A post between the panels `before` and `after`; nullptr where the fence ends.
void append_post(const Model& model, const Panel* before, const Panel* after, geom::Mesh& posts) {
  const Panel& any = after != nullptr ? *after : *before;
  const Vec2 at = after != nullptr ? after->a : before->b;
  const Vec2 from = before != nullptr ? before->a : at - (any.b - any.a);
  const Vec2 to = after != nullptr ? after->b : at + (any.b - any.a);
  double top = before != nullptr ? before->top_b : after->top_a;
  if (after != nullptr) top = std::max(top, after->top_a);
  const double off = -(kPostDiameter / 2 + kPostOffLine);
  const Vec2 centre = geom::mitre(from, at, to, off, off) + beside(model, before, after);
  const double ground =
      std::min(geom::height_at(model.ground, centre), geom::height_at(model.ground, at));
  geom::Mesh post = round_solid(kPostDiameter, ground - kPostInGround, top, kPostSides);
  shift(post, at_height(centre, 0.0));
  geom::append(posts, post);
}

// Post k stands where panel k begins; one more where a run of panels ends without a neighbour.
std::vector<geom::Mesh> posts_by_section(const Model& model) {
  std::vector<geom::Mesh> posts(model.site.boundary.sections.size());
  const std::size_t n = model.panels.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Panel& after = model.panels[k];
    const Panel& before = model.panels[(k + n - 1) % n];
    const Panel& next = model.panels[(k + 1) % n];
    const bool joined = geom::distance(before.b, after.a) < 1e-9;
    geom::Mesh& mine = posts[static_cast<std::size_t>(after.section)];
    append_post(model, joined ? &before : nullptr, &after, mine);
    if (geom::distance(after.b, next.a) >= 1e-9) append_post(model, &after, nullptr, mine);
  }
  return posts;
}

// The section's own face and its bands, each a part; none for what has no face.
void add_faces(Model& model, std::size_t s, const Faces& faces) {
  const Section& section = model.site.boundary.sections[s];
  const auto first = static_cast<int>(model.parts.size());
  for (Panel& p : model.panels) {
    if (p.section == static_cast<int>(s)) p.part = first;
  }
  const std::vector<Band> bands = bands_of(section);
  const bool in_bands = std::any_of(faces.begin() + 1, faces.end(),
                                    [](const geom::Mesh& face) { return !face.empty(); });
  for (std::size_t k = 0; k < faces.size(); ++k) {
    if (faces[k].empty() && (k > 0 || in_bands)) continue;
    Part part;
    part.name = section.name;
    part.kind = PartKind::panel;
    part.source = static_cast<int>(s);
    part.band = static_cast<int>(k) - 1;
    part.mesh = geom::weld(faces[k], 0.0);
    if (k == 0) {
      set_sheet(part, section.kind, section.aperture, section.wire, section.surface);
    } else {
      const Band& band = bands[k - 1];
      set_sheet(part, band.kind, band.aperture, band.wire, band.surface);
    }
    model.parts.push_back(std::move(part));
  }
}

void add_parts(Model& model, const std::vector<Faces>& faces) {
  std::vector<geom::Mesh> posts = posts_by_section(model);
  for (std::size_t s = 0; s < faces.size(); ++s) {
    const Section& section = model.site.boundary.sections[s];
    add_faces(model, s, faces[s]);
    Part post;
    post.name = section.name;
    post.kind = PartKind::post;
    post.source = static_cast<int>(s);
    post.mesh = std::move(posts[s]);
    post.closed = true;
    model.parts.push_back(std::move(post));
  }
}

}  // namespace

void build_boundary(Model& model) {
  std::vector<Faces> faces(model.site.boundary.sections.size(), Faces(1));
  for (const Bay& bay : divide_boundary(model)) {
    Panel panel = plain_panel(model, bay);
    if (bay.gate >= 0) {
      const Gateway gateway = gateway_in(model, bay, panel);
      raise_over_gate(panel, gateway, static_cast<int>(model.gateways.size()));
      model.gateways.push_back(gateway);
    }
    const auto s = static_cast<std::size_t>(bay.section);
    append_faces(faces[s], model.site.boundary.sections[s], panel_wall(model, bay, panel));
    model.panels.push_back(panel);
  }
  add_parts(model, faces);
}

}  // namespace hummock
