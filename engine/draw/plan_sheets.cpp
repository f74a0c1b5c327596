// Whole sheets: a plan with its margin, key and legend.
#include <algorithm>
#include <memory>

#include "engine/draw/plan_lines.h"

namespace hummock::draw {

namespace {

constexpr Vec2 kSheet{180.0, 150.0};
constexpr Vec2 kPlanAt{5.0, 12.0};
constexpr Vec2 kPlanRoom{134.0, 130.0};
constexpr double kSideX = 146.0;

}  // namespace

geom::Box2 plan_area(const Model& model) {
  geom::Box2 box = geom::bounds(model.outline);
  for (const Gateway& g : model.gateways) {
    const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
    if (!gate.vestibule) continue;
    const Vec2 out = geom::left_of(geom::unit(g.b - g.a)) * -gate.vestibule->depth;
    box.add(g.a + out);
    box.add(g.b + out);
  }
  const Vec2 size = box.hi - box.lo;
  const double rim = std::clamp(0.04 * std::max(size.x, size.y), 0.4, 3.0);
  box.add(box.lo - Vec2{rim, rim});
  box.add(box.hi + Vec2{rim, rim});
  return box;
}

namespace {

PlanFrame plan_frame(const Model& model) {
  return fit(plan_area(model), kPlanAt, kPlanRoom);
}

void clip_to_plan(Canvas& canvas) {
  // A little more than the plan's room, so that names along the outside are whole.
  const Vec2 lo = kPlanAt - Vec2{1.0, 3.0};
  const Vec2 hi = kPlanAt + kPlanRoom + Vec2{2.0, 3.0};
  canvas.clip_to({lo, {hi.x, lo.y}, hi, {lo.x, hi.y}});
}

void draw_margin(Canvas& canvas, const Model& model, const PlanFrame& frame,
                 const std::string& title) {
  canvas.words({6.0, 7.0}, isolated(model.site.name) + ": " + title,
               {.size = 3.6, .bold = true, .ltr = true});
  draw_north_arrow(canvas, model, {168.0, 24.0}, 14.0);
  draw_scale_bar(canvas, frame, {kSideX, 130.0}, 26.0);
  canvas.words({6.0, 147.5}, "A calculation aid; no warranty. Confirm with keepers and engineers.",
               {.size = 2.0, .colour = kFaint});
}

// What the lines on a site plan are; only what the site has.
void draw_key(Canvas& canvas, const Model& model, Vec2 at) {
  const auto line = [&](const Pen& pen, const std::string& words) {
    canvas.line({at, at + Vec2{8.0, 0.0}}, pen);
    canvas.words(at + Vec2{10.0, 0.8}, words, {.size = 2.2});
    at.y += 4.4;
  };
  for (const SheetKind kind : {SheetKind::mesh, SheetKind::solid, SheetKind::glass}) {
    for (const Section& section : model.site.boundary.sections) {
      if (section.kind != kind) continue;
      line(barrier_pen(section), kind == SheetKind::mesh    ? "mesh fence"
                                 : kind == SheetKind::solid ? "solid wall"
                                                            : "glass");
      break;
    }
  }
  if (!model.gateways.empty()) line(kGatePen, "gate");
  if (!model.overhangs.empty()) line(kHair, "overhang's tip");
  if (!model.site.viewings.empty()) line(viewing_pen(), "viewing");
  line(kContourPen, "contour, m");
}

}  // namespace

Figure layer_figure(const Model& model, const geom::Raster& raster, const std::string& name,
                    const std::string& title, const std::string& unit, const LayerLook& look) {
  Figure figure;
  figure.name = name;
  figure.caption = title;
  figure.size = kSheet;
  const auto layer = std::make_shared<const ColouredLayer>(coloured(raster, look));
  figure.draw = [&model, raster, layer, title, unit, look](Canvas& canvas) {
    const PlanFrame frame = plan_frame(model);
    clip_to_plan(canvas);
    draw_layer(canvas, model, *layer, frame);
    draw_site(canvas, model, frame, {.contours = false});
    canvas.unclip();
    draw_margin(canvas, model, frame, title);
    draw_legend(canvas, raster, look, {kSideX, 48.0}, {5.0, 66.0}, unit, "1");
  };
  return figure;
}

Figure site_figure(const Model& model) {
  Figure figure;
  figure.name = "site-plan";
  figure.caption = "Site plan with ground contours in metres";
  figure.size = kSheet;
  figure.draw = [&model](Canvas& canvas) {
    const PlanFrame frame = plan_frame(model);
    clip_to_plan(canvas);
    draw_site(canvas, model, frame, {.sections = true});
    canvas.unclip();
    draw_margin(canvas, model, frame, "site plan");
    draw_key(canvas, model, {kSideX, 48.0});
  };
  return figure;
}

}  // namespace hummock::draw
