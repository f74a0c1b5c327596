#include "engine/draw/site_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/draw/plan_lines.h"
#include "engine/draw/plan_shadow.h"
#include "engine/site/station_place.h"
#include "engine/site/viewing_line.h"
#include "geometry/plan/contours.h"

namespace hummock::draw {
namespace {

constexpr std::array<double, 4> kRound{10.0, 20.0, 25.0, 50.0};

std::vector<Vec2> rectangle(Vec2 centre, double length, double width, double turn) {
  const Vec2 u = Vec2{std::cos(turn), std::sin(turn)} * (0.5 * length);
  const Vec2 v = Vec2{-std::sin(turn), std::cos(turn)} * (0.5 * width);
  return {centre + u + v, centre - u + v, centre - u - v, centre + u - v};
}

std::vector<Vec2> ellipse(Vec2 centre, double a, double b, double turn) {
  std::vector<Vec2> points;
  for (int k = 0; k < 48; ++k) {
    const double t = 2.0 * geom::kPi * k / 48;
    const Vec2 p{a * std::cos(t), b * std::sin(t)};
    points.push_back(centre + Vec2{std::cos(turn) * p.x - std::sin(turn) * p.y,
                                   std::sin(turn) * p.x + std::cos(turn) * p.y});
  }
  return points;
}

}  // namespace

std::vector<Vec2> on_sheet(const PlanFrame& frame, const std::vector<Vec2>& points) {
  std::vector<Vec2> sheet;
  sheet.reserve(points.size());
  for (Vec2 p : points) sheet.push_back(frame.sheet(p));
  return sheet;
}

Pen barrier_pen(const Section& section) {
  if (section.kind == SheetKind::glass) return {{0.20, 0.45, 0.62, 1.0}, 0.9};
  if (section.kind == SheetKind::solid) return {kInk, 1.0};
  return {kInk, 0.5, {1.6, 0.7}};
}

Pen viewing_pen() {
  return {{0.20, 0.45, 0.62, 1.0}, 0.6, {0.6, 0.6}};
}

double round_scale(double least) {
  constexpr int kPowers = 9;
  double power = 1.0;
  for (int k = 0; k < kPowers; ++k, power *= 10.0) {
    for (const double r : kRound) {
      if (r * power >= least * (1.0 - 1e-9)) return r * power;
    }
  }
  return kRound.back() * power;
}

PlanFrame fit(const geom::Box2& area, Vec2 top_left, Vec2 extent) {
  const Vec2 size = area.hi - area.lo;
  const double least = 1000.0 * std::max(size.x / extent.x, size.y / extent.y);
  PlanFrame frame;
  frame.centre = (area.lo + area.hi) * 0.5;
  frame.middle = top_left + extent * 0.5;
  frame.scale = round_scale(least);
  return frame;
}

namespace {

void draw_ground_contours(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  geom::Raster heights(model.ground.grid);
  float lo = INFINITY;
  float hi = -INFINITY;
  for (std::size_t k = 0; k < heights.values.size(); ++k) {
    heights.values[k] = static_cast<float>(model.ground.z[k]);
    lo = std::min(lo, heights.values[k]);
    hi = std::max(hi, heights.values[k]);
  }
  if (!(hi - lo > 1e-6F)) return;
  for (const auto& c : geom::contours(heights, geom::round_step(lo, hi, 8))) {
    canvas.line(on_sheet(frame, c.line), kContourPen);
    if (c.line.size() > 30) {
      canvas.words(frame.sheet(c.line[c.line.size() / 2]), fmt::format("{:.4g}", c.level),
                   {.size = 1.7, .colour = {0.5, 0.4, 0.25, 1.0}, .halo = true});
    }
  }
}

void draw_barrier(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  for (const OverhangPanel& o : model.overhangs) {
    const std::vector<Vec2> strip{geom::xy(o.base_a), geom::xy(o.base_b), geom::xy(o.tip_b),
                                  geom::xy(o.tip_a)};
    canvas.fill(on_sheet(frame, strip), {0.75, 0.75, 0.78, 0.45});
    canvas.line(on_sheet(frame, {geom::xy(o.tip_a), geom::xy(o.tip_b)}), kHair);
  }
  for (const Panel& p : model.panels) {
    const Section& section = model.site.boundary.sections[static_cast<std::size_t>(p.section)];
    canvas.line(on_sheet(frame, {p.a, p.b}), barrier_pen(section));
  }
  for (const Gateway& g : model.gateways) {
    const Vec2 u = geom::unit(g.b - g.a);
    const double width = geom::distance(g.a, g.b);
    canvas.line(on_sheet(frame, {g.a, g.b}), {kPaper, 1.4});
    canvas.line(on_sheet(frame, {g.a, g.b}), kGatePen);
    const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    if (gate.vestibule) {
      const Vec2 out = geom::left_of(u) * -gate.vestibule->depth;
      canvas.line(on_sheet(frame, {g.a, g.a + out, g.a + out + u * width, g.b}),
                  {{0.70, 0.25, 0.15, 1.0}, 0.3});
    }
  }
}

void name_at(Canvas& canvas, const PlanFrame& frame, Vec2 at, const std::string& name) {
  canvas.words(frame.sheet(at), name, {.size = 2.1, .anchor = Anchor::middle, .halo = true});
}

Vec2 middle_of(const Polygon& polygon) {
  const geom::Box2 box = geom::bounds(polygon);
  return (box.lo + box.hi) * 0.5;
}

void draw_areas(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  const Site& site = model.site;
  for (const Surfacing& s : site.surfaces)
    canvas.line(on_sheet(frame, s.outline), {{0.55, 0.45, 0.30, 1.0}, 0.25, {1.2, 0.6}}, true);
  for (const Water& w : site.waters) {
    canvas.fill(on_sheet(frame, w.outline), {0.62, 0.78, 0.88, 0.8});
    canvas.line(on_sheet(frame, w.outline), {{0.25, 0.45, 0.60, 1.0}, 0.25}, true);
  }
  for (const Planting& p : site.plantings) {
    canvas.hatch(on_sheet(frame, p.outline), {{0.35, 0.50, 0.30, 1.0}, 0.15}, 1.4, 0.8);
    canvas.line(on_sheet(frame, p.outline), {{0.35, 0.50, 0.30, 1.0}, 0.2}, true);
  }
  for (const House& h : site.houses) {
    canvas.fill(on_sheet(frame, h.outline), {0.86, 0.84, 0.80, 0.9});
    canvas.line(on_sheet(frame, h.outline), {kInk, 0.5}, true);
  }
  for (const Surrounding& s : site.surroundings) {
    canvas.hatch(on_sheet(frame, s.outline), kHair, 1.8, -0.8);
    canvas.line(on_sheet(frame, s.outline), kHair, true);
  }
}

void draw_part(Canvas& canvas, const PlanFrame& frame, const Part& part, const Colour& colour) {
  auto lines = plan_shadow(part.mesh, part.closed);
  for (auto& line : lines) line = on_sheet(frame, line);
  canvas.fill(lines, colour);
}

Colour colour_of(ObjectKind kind) {
  switch (kind) {
    case ObjectKind::boulder:
      return {0.66, 0.65, 0.63, 1.0};
    case ObjectKind::log:
    case ObjectKind::tree:
      return {0.60, 0.47, 0.34, 1.0};
    default:
      return {0.78, 0.68, 0.52, 1.0};
  }
}

void draw_objects(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  const Site& site = model.site;
  for (std::size_t k = 0; k < site.objects.size(); ++k) {
    const Object& o = site.objects[k];
    if (o.crown) {
      canvas.line(
          on_sheet(frame, ellipse(o.at, 0.5 * o.crown->size.x, 0.5 * o.crown->size.y, o.turn)),
          {{0.30, 0.45, 0.25, 1.0}, 0.25, {0.8, 0.5}}, true);
    }
    if (k < model.object_part.size() && model.object_part[k] >= 0) {
      const Part& part = model.parts[static_cast<std::size_t>(model.object_part[k])];
      draw_part(canvas, frame, part, colour_of(o.kind));
    }
  }
  for (const Den& d : site.dens) {
    const auto box = on_sheet(frame, rectangle(d.at, d.size.x, d.size.y, d.turn));
    canvas.fill(box, {0.82, 0.74, 0.62, 1.0});
    canvas.line(box, {kInk, 0.25}, true);
  }
  for (const Burrow& b : site.burrows) {
    canvas.circle(frame.sheet(b.mouth), 1.0, {kInk, 0.35});
    std::vector<Vec2> path{b.mouth};
    path.insert(path.end(), b.path.begin(), b.path.end());
    canvas.line(on_sheet(frame, path), {kInk, 0.25, {0.9, 0.6}});
  }
  for (const Station& s : site.stations)
    canvas.circle(frame.sheet(station_place(site, s)), 0.7, {{0.55, 0.15, 0.45, 1.0}, 0.45});
}

void draw_names(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  const Site& site = model.site;
  for (const Object& o : site.objects) name_at(canvas, frame, o.at, o.name);
  for (const Den& d : site.dens) name_at(canvas, frame, d.at, d.name);
  for (const Burrow& b : site.burrows) name_at(canvas, frame, b.mouth, b.name);
  for (const Water& w : site.waters) name_at(canvas, frame, middle_of(w.outline), w.name);
  for (const House& h : site.houses) name_at(canvas, frame, middle_of(h.outline), h.name);
  for (const Surfacing& s : site.surfaces) name_at(canvas, frame, middle_of(s.outline), s.name);
  for (const Station& s : site.stations) name_at(canvas, frame, station_place(site, s), s.name);
}

// Along the outside of a stretch of the boundary, never upside down.
void name_along(Canvas& canvas, const PlanFrame& frame, Vec2 a, Vec2 b, const std::string& name,
                double off) {
  const Vec2 p = frame.sheet(a);
  const Vec2 q = frame.sheet(b);
  const Vec2 out = geom::left_of(geom::unit(q - p));  // the sheet's y runs down: left is outside
  double turn = std::atan2(q.y - p.y, q.x - p.x);
  if (turn > 0.5 * geom::kPi + 1e-9) turn -= geom::kPi;
  if (turn < -0.5 * geom::kPi + 1e-9) turn += geom::kPi;
  const Vec2 down{-std::sin(turn), std::cos(turn)};
  canvas.words((p + q) * 0.5 + out * off + down * 0.8, name,
               {.size = 2.2, .anchor = Anchor::middle, .turn = turn, .halo = true});
}

void draw_section_names(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  const std::size_t n = model.outline.size();
  for (const Section& section : model.site.boundary.sections) {
    std::size_t longest = n;
    for (std::size_t k = 0; k < n; ++k) {
      const auto& edges = section.edges;
      if (std::find(edges.begin(), edges.end(), model.edge_of[k]) == edges.end()) continue;
      const auto length = [&](std::size_t e) {
        return geom::distance(model.outline[e], model.outline[(e + 1) % n]);
      };
      if (longest == n || length(k) > length(longest)) longest = k;
    }
    if (longest == n) continue;
    name_along(canvas, frame, model.outline[longest], model.outline[(longest + 1) % n],
               section.name, 2.4);
  }
  for (const Gateway& g : model.gateways) {
    const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    const double beyond = gate.vestibule ? frame.mm(gate.vestibule->depth) : 0.0;
    name_along(canvas, frame, g.a, g.b, gate.name, std::max(5.2, beyond + 2.2));
  }
}

void draw_viewings(Canvas& canvas, const Model& model, const PlanFrame& frame) {
  for (const Viewing& v : model.site.viewings) {
    const ViewingLine at = viewing_line(model.site.boundary, v);
    const Vec2 out = -at.inwards;
    const Vec2 p = at.a + out * at.off;
    const Vec2 q = at.b + out * at.off;
    canvas.line(on_sheet(frame, {p, q}), viewing_pen());
    canvas.words(
        frame.sheet((p + q) * 0.5 + out * (3.0 / frame.mm(1.0))), v.name,
        {.size = 2.1, .colour = {0.20, 0.45, 0.62, 1.0}, .anchor = Anchor::middle, .halo = true});
  }
}

}  // namespace

void draw_site(Canvas& canvas, const Model& model, const PlanFrame& frame, const PlanLook& look) {
  if (look.contours) draw_ground_contours(canvas, model, frame);
  if (look.furniture) {
    draw_areas(canvas, model, frame);
    draw_objects(canvas, model, frame);
  }
  draw_barrier(canvas, model, frame);
  draw_viewings(canvas, model, frame);
  if (look.names) draw_names(canvas, model, frame);
  if (look.sections) draw_section_names(canvas, model, frame);
}

void draw_north_arrow(Canvas& canvas, const Model& model, Vec2 at, double size) {
  // grid_north is the clockwise angle from true north to +y, so north lies that much to the left.
  const double turn = model.site.place ? -model.site.place->grid_north : 0.0;
  const Vec2 north{std::sin(turn), -std::cos(turn)};
  canvas.arrow(at - north * (0.5 * size), at + north * (0.5 * size), {kInk, 0.35});
  canvas.words(at + north * (0.5 * size + 2.2) + Vec2{0.0, 0.9}, "N",
               {.size = 3.0, .anchor = Anchor::middle, .bold = true});
}

void draw_scale_bar(Canvas& canvas, const PlanFrame& frame, Vec2 at, double room) {
  const double most = room / frame.mm(1.0);
  const double power = std::pow(10.0, std::floor(std::log10(most)));
  double metres = power;
  for (double m : {2.0, 5.0}) {
    if (m * power <= most) metres = m * power;
  }
  const double half = 0.5 * frame.mm(metres);
  canvas.fill({at, at + Vec2{half, 0}, at + Vec2{half, 1.2}, at + Vec2{0, 1.2}}, kInk);
  canvas.line({at, at + Vec2{2 * half, 0}, at + Vec2{2 * half, 1.2}, at + Vec2{0, 1.2}},
              {kInk, 0.15}, true);
  canvas.words(at + Vec2{0, 4.2}, "0", {.size = 2.3});
  canvas.words(at + Vec2{2 * half, 4.2}, fmt::format("{:g} m", metres),
               {.size = 2.3, .anchor = Anchor::middle});
  canvas.words(at + Vec2{0, 7.4}, fmt::format("1 : {:g}", frame.scale), {.size = 2.3});
}

}  // namespace hummock::draw
