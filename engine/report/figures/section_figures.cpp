#include "engine/report/figures/section_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/draw/site_plan.h"
#include "geometry/mesh/plane_cut.h"

namespace hummock::report {
namespace {

using draw::Canvas;
using draw::Colour;
using draw::Pen;

constexpr Vec2 kSectionSheet{180.0, 100.0};
constexpr Vec2 kSectionAt{10.0, 12.0};
constexpr Vec2 kSectionRoom{160.0, 72.0};
constexpr Colour kEarth{0.80, 0.74, 0.64, 1.0};
constexpr Colour kFlight{0.70, 0.25, 0.15, 1.0};

// One straight stretch of an unrolled section.
struct Stretch {
  geom::UprightPlane plane;
  double s_from = 0.0, s_to = 0.0;  // m along the plane
  double offset = 0.0;              // m: chainage = s + offset
};

// From (chainage, z) to the sheet, same scale both ways.
struct SectionFrame {
  double s_mid = 0.0, z_mid = 0.0;
  double mm_per_m = 10.0;
  Vec2 sheet(double chainage, double z) const {
    return kSectionAt + kSectionRoom * 0.5 +
           Vec2{(chainage - s_mid) * mm_per_m, -(z - z_mid) * mm_per_m};
  }
};

SectionFrame frame_of(double s_lo, double s_hi, double z_lo, double z_hi) {
  const double least =
      1000.0 * std::max((s_hi - s_lo) / kSectionRoom.x, (z_hi - z_lo) / kSectionRoom.y);
  SectionFrame frame;
  frame.s_mid = 0.5 * (s_lo + s_hi);
  frame.z_mid = 0.5 * (z_lo + z_hi);
  frame.mm_per_m = 1000.0 / draw::round_scale(least);
  return frame;
}

Pen pen_of(const Part& part) {
  switch (part.kind) {
    case PartKind::panel:
    case PartKind::gate:
    case PartKind::overhang:
    case PartKind::roof:
      return {draw::kInk, 0.55};
    case PartKind::skirt:
    case PartKind::apron:
    case PartKind::footing:
      return {draw::kInk, 0.4, {0.9, 0.5}};
    case PartKind::crown:
    case PartKind::planting:
      return {{0.35, 0.50, 0.30, 1.0}, 0.2, {0.7, 0.5}};
    default:
      return {{0.35, 0.33, 0.30, 1.0}, 0.3};
  }
}

using Wanted = bool (*)(const Part& part, const std::string& thing);

bool every_part(const Part& part, const std::string&) {
  return part.kind != PartKind::surrounding;
}

// At a corner the neighbouring fence lies in the plane of the section and would hide it.
bool not_of_other_fences(const Part& part, const std::string& thing) {
  switch (part.kind) {
    case PartKind::panel:
    case PartKind::post:
    case PartKind::overhang:
    case PartKind::skirt:
    case PartKind::apron:
    case PartKind::footing:
      return part.name == thing;
    default:
      return every_part(part, thing);
  }
}

void draw_stretch(Canvas& canvas, const Model& model, const SectionFrame& frame,
                  const Stretch& stretch, Wanted wanted = every_part,
                  const std::string& thing = "") {
  const auto on = [&](Vec2 p) { return frame.sheet(p.x + stretch.offset, p.y); };
  const auto ground = geom::profile(model.ground, stretch.plane, stretch.s_from, stretch.s_to);
  std::vector<Vec2> line;
  line.reserve(ground.size() + 2);
  for (Vec2 p : ground) line.push_back(on(p));
  std::vector<Vec2> earth = line;
  const double bottom = kSectionAt.y + kSectionRoom.y + 4.0;
  earth.push_back({line.back().x, bottom});
  earth.push_back({line.front().x, bottom});
  canvas.fill(earth, kEarth);
  canvas.line(line, {draw::kInk, 0.3});
  for (const Part& part : model.parts) {
    if (!wanted(part, thing)) continue;
    for (const geom::CutLine& c :
         geom::cut(part.mesh, stretch.plane, stretch.s_from, stretch.s_to)) {
      canvas.line({on(c.from), on(c.to)}, pen_of(part));
    }
  }
}

void draw_scale(Canvas& canvas, const SectionFrame& frame) {
  const double metre = frame.mm_per_m;
  const double bar = metre >= 8.0 ? 1.0 : 5.0;
  const Vec2 at{kSectionAt.x, 94.0};
  canvas.line({at, at + Vec2{bar * metre, 0.0}}, {draw::kInk, 0.8});
  canvas.words(at + Vec2{bar * metre + 2.0, 0.8},
               fmt::format("{:g} m, same scale up and along, 1 : {:g}", bar, 1000.0 / metre),
               {.size = 2.3});
}

// The stretches of a route: one for each step that goes somewhere in plan, and a little beyond the
// last, where the animal lands.
std::vector<Stretch> stretches_of(const std::vector<leap::Step>& route) {
  constexpr double kShort = 0.05;  // m: a step that only goes up belongs to its neighbour
  constexpr double kBeyond = 0.8;  // m shown before the first leap and after the last
  std::vector<Stretch> all;
  double chainage = 0.0;
  for (const leap::Step& step : route) {
    const double run = geom::distance(geom::xy(step.from), geom::xy(step.to));
    if (run < kShort) continue;
    all.push_back({{geom::xy(step.from), geom::xy(step.to)}, 0.0, run, chainage});
    chainage += run;
  }
  if (all.empty()) return all;
  all.front().s_from -= kBeyond;
  all.back().s_to += kBeyond;
  return all;
}

// Only the end of a long route: the walk to the first leap or climb says nothing.
std::vector<leap::Step> telling_part(const std::vector<leap::Step>& route) {
  std::size_t first = 0;
  while (first + 1 < route.size() && route[first].kind == leap::StepKind::walk) ++first;
  return {route.begin() + static_cast<std::ptrdiff_t>(first), route.end()};
}

void draw_flights(Canvas& canvas, const SectionFrame& frame, const std::vector<leap::Step>& route) {
  double chainage = 0.0;
  for (const leap::Step& step : route) {
    const Vec2 a = geom::xy(step.from);
    const double run = geom::distance(a, geom::xy(step.to));
    const bool flat = run < 0.05;
    const auto along = [&](Vec3 p) {
      return chainage + (flat ? 0.0 : geom::distance(a, geom::xy(p)));
    };
    std::vector<Vec2> line;
    if (step.arc.size() >= 2) {
      for (Vec3 p : step.arc) line.push_back(frame.sheet(along(p), p.z));
    } else {
      line = {frame.sheet(along(step.from), step.from.z), frame.sheet(along(step.to), step.to.z)};
    }
    const bool leaps = step.kind == leap::StepKind::leap;
    canvas.line(line, leaps ? Pen{kFlight, 0.6} : Pen{kFlight, 0.4, {1.0, 0.8}});
    if (leaps && step.effort_m > 0.05) {
      canvas.words(line[line.size() / 2] + Vec2{-2.5, 0.0}, fmt::format("{:.2f} m", step.effort_m),
                   {.size = 2.6,
                    .colour = kFlight,
                    .anchor = draw::Anchor::end,
                    .bold = true,
                    .halo = true});
      canvas.words(line.front() + Vec2{2.0, 4.5}, step.from_thing, {.size = 2.4, .halo = true});
      canvas.words(line.back() + Vec2{0.0, -2.5}, step.to_thing, {.size = 2.4, .halo = true});
    }
    canvas.disc(line.front(), 0.7, kFlight);
    canvas.disc(line.back(), 0.7, kFlight);
    if (!flat) chainage += run;
  }
}

void grow(geom::Box2& box, double s, double z) {
  box.add({s, z});
}

geom::Box2 extent_of(const Model& model, const std::vector<Stretch>& stretches,
                     const std::vector<leap::Step>& route) {
  geom::Box2 box;
  for (const Stretch& s : stretches) {
    for (Vec2 p : geom::profile(model.ground, s.plane, s.s_from, s.s_to)) {
      grow(box, p.x + s.offset, p.y);
    }
  }
  const double s_mid = 0.5 * (box.lo.x + box.hi.x);
  for (const leap::Step& step : route) {
    grow(box, s_mid, step.from.z);
    grow(box, s_mid, step.to.z);
    for (Vec3 p : step.arc) grow(box, s_mid, p.z);
  }
  box.lo.y -= 0.3;
  box.hi.y += 0.3;
  return box;
}

// The first and last stretch carried on, so that the section fills its sheet.
std::vector<Stretch> to_the_rims(std::vector<Stretch> stretches, const SectionFrame& frame,
                                 const geom::Box2& box) {
  const double spare = kSectionRoom.x / frame.mm_per_m - (box.hi.x - box.lo.x);
  if (spare <= 0.0) return stretches;
  stretches.front().s_from -= 0.5 * spare;
  stretches.back().s_to += 0.5 * spare;
  return stretches;
}

void title(Canvas& canvas, const std::string& text) {
  canvas.words({6.0, 7.0}, text, {.size = 3.4, .bold = true, .ltr = true});
}

}  // namespace

std::optional<draw::Figure> route_section(const Model& model, const leap::Result& leap) {
  const auto route = telling_part(leap.route);
  const auto stretches = stretches_of(route);
  if (stretches.empty()) return std::nullopt;
  draw::Figure figure;
  figure.name = "escape-section";
  figure.size = kSectionSheet;
  figure.caption = fmt::format(
      "Section unrolled along the easiest way out, over {}. Flights with their effort, the least "
      "leap height that passes (model: parabola of safety, scaled to the species' height and "
      "distance); the animal is a point. Heights and lengths in metres.",
      leap.over);
  figure.draw = [&model, route, stretches, over = leap.over](Canvas& canvas) {
    const geom::Box2 box = extent_of(model, stretches, route);
    const SectionFrame frame = frame_of(box.lo.x, box.hi.x, box.lo.y, box.hi.y);
    canvas.clip_to({kSectionAt, kSectionAt + Vec2{kSectionRoom.x, 0},
                    kSectionAt + kSectionRoom + Vec2{0, 4},
                    kSectionAt + Vec2{0, kSectionRoom.y + 4}});
    for (const Stretch& s : to_the_rims(stretches, frame, box))
      draw_stretch(canvas, model, frame, s);
    draw_flights(canvas, frame, route);
    canvas.unclip();
    title(canvas, "The easiest way out, over " + draw::isolated(over));
    draw_scale(canvas, frame);
  };
  return figure;
}

namespace {

// The plane across the barrier at a station, s = 0 on the line, rising outwards.
geom::UprightPlane across(const Model& model, Vec2 at) {
  const auto nearest = geom::nearest_on_edges(model.outline, at);
  const auto i = static_cast<std::size_t>(nearest.edge);
  const Vec2 a = model.outline[i];
  const Vec2 b = model.outline[(i + 1) % model.outline.size()];
  const Vec2 out = -geom::left_of(geom::unit(b - a));
  return {at, at + out};
}

// The section whose buried parts the station is about: under a gate too.
std::string fence_of(const Model& model, const dig::Station& s) {
  const auto& sections = model.site.boundary.sections;
  for (const House& house : model.site.houses) {
    if (house.name == s.thing) return s.thing;
  }
  const bool known = s.section >= 0 && static_cast<std::size_t>(s.section) < sections.size();
  return known ? sections[static_cast<std::size_t>(s.section)].name : s.thing;
}

}  // namespace

std::optional<draw::Figure> dig_section(const Model& model, const dig::Result& dig) {
  if (!dig.any_open) return std::nullopt;
  draw::Figure figure;
  figure.name = "dig-section";
  figure.size = kSectionSheet;
  const dig::Station& s = dig.worst;
  figure.caption = fmt::format(
      "Cross-section of {} at the weakest station: shortest tunnel {:.2f} m long, {:.2f} m deep at "
      "its deepest, {} (shortest path round everything buried; soil diggable everywhere above "
      "rock, which is hatched). Of the fences only this stretch is drawn.",
      s.thing, s.least_length_m, s.depth_of_shortest_m, s.weakness);
  figure.draw = [&model, s](Canvas& canvas) {
    const geom::UprightPlane plane = across(model, s.at);
    const double z = geom::height_at(model.ground, s.at);
    double reach = 1.5;
    double deepest = z - 0.8;
    for (Vec3 p : s.tunnel) {
      reach = std::max(reach, geom::distance(geom::xy(p), s.at) + 0.5);
      deepest = std::min(deepest, p.z - 0.3);
    }
    const SectionFrame frame = frame_of(-reach, reach, deepest, z + 1.2);
    reach = 0.5 * kSectionRoom.x / frame.mm_per_m;
    canvas.clip_to({kSectionAt, kSectionAt + Vec2{kSectionRoom.x, 0},
                    kSectionAt + kSectionRoom + Vec2{0, 4},
                    kSectionAt + Vec2{0, kSectionRoom.y + 4}});
    draw_stretch(canvas, model, frame, {plane, -reach, reach, 0.0}, not_of_other_fences,
                 fence_of(model, s));
    if (model.site.ground.soil_depth) {
      const double rock = z - *model.site.ground.soil_depth;
      const auto strip =
          std::vector<Vec2>{frame.sheet(-reach, rock), frame.sheet(reach, rock),
                            frame.sheet(reach, rock - 0.2), frame.sheet(-reach, rock - 0.2)};
      canvas.hatch(strip, {draw::kInk, 0.15}, 1.2, 0.8);
    }
    std::vector<Vec2> tunnel;
    for (Vec3 p : s.tunnel) {
      tunnel.push_back(frame.sheet(geom::dot(geom::xy(p) - plane.a, plane.along()), p.z));
    }
    canvas.line(tunnel, {kFlight, 0.9});
    if (!tunnel.empty()) {
      const Vec2 low =
          *std::max_element(tunnel.begin(), tunnel.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
      canvas.disc(low, 0.8, kFlight);
      canvas.words(
          low + Vec2{3.0, 1.0},
          fmt::format("{:.2f} m deep, {:.2f} m of tunnel", s.depth_of_shortest_m, s.least_length_m),
          {.size = 2.6, .colour = kFlight, .bold = true, .halo = true});
    }
    canvas.words(frame.sheet(-0.8 * reach, z + 0.9), "inside", {.size = 2.6});
    canvas.words(frame.sheet(0.6 * reach, z + 0.9), "outside", {.size = 2.6});
    canvas.unclip();
    title(canvas, "Below ground at " + draw::isolated(s.thing));
    draw_scale(canvas, frame);
  };
  return figure;
}

}  // namespace hummock::report
