#include "engine/draw/small_plans.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace hummock::draw {
namespace {

constexpr double kWidth = 180.0;  // mm
constexpr double kTop = 12.0;
constexpr double kSide = 22.0;  // for the legend
constexpr double kGap = 3.0;
constexpr double kLabel = 5.0;
constexpr double kFoot = 14.0;

LayerLook with_range(const std::vector<SmallPlan>& plans, LayerLook look) {
  if (look.low < look.high) return look;
  double low = INFINITY;
  double high = -INFINITY;
  for (const SmallPlan& plan : plans) {
    for (const float v : plan.raster.values) {
      if (std::isnan(v)) continue;
      low = std::min(low, static_cast<double>(v));
      high = std::max(high, static_cast<double>(v));
    }
  }
  if (!(low <= high)) return look;
  look.low = low;
  look.high = std::max(high, low + 1e-9);
  return look;
}

// The outline with a narrow rim: what stands outside it is for the large plans.
geom::Box2 small_area(const Model& model) {
  geom::Box2 box = geom::bounds(model.outline);
  const Vec2 rim = Vec2{1.0, 1.0} * (0.03 * geom::length(box.hi - box.lo));
  box.lo = box.lo - rim;
  box.hi = box.hi + rim;
  return box;
}

struct Layout {
  int across = 3, down = 2;
  Vec2 room;  // mm, of one plan
  double height() const { return kTop + down * (room.y + kLabel + kGap) + kFoot; }
  Vec2 at(int k) const {
    const int row = k / across;
    const int column = k - row * across;
    return {6.0 + column * (room.x + kGap), kTop + row * (room.y + kLabel + kGap)};
  }
};

Layout layout_with(const geom::Box2& area, std::size_t count, int across) {
  const Vec2 size = area.hi - area.lo;
  Layout out;
  out.across = across;
  out.down = (static_cast<int>(count) + across - 1) / across;
  out.room.x = (kWidth - 6.0 - kSide - across * kGap) / across;
  out.room.y = std::clamp(out.room.x * size.y / size.x, 18.0, 100.0);
  return out;
}

// One fewer across when the round scales then let the plans be much larger.
Layout layout_of(const Model& model, std::size_t count, int across) {
  const geom::Box2 area = small_area(model);
  const Layout wide = layout_with(area, count, across);
  if (across <= 2) return wide;
  const Layout tall = layout_with(area, count, across - 1);
  const double wide_scale = fit(area, {}, wide.room).scale;
  return fit(area, {}, tall.room).scale < 0.65 * wide_scale && tall.height() < 235.0 ? tall : wide;
}

}  // namespace

Figure small_plans(const Model& model, std::vector<SmallPlan> plans, int across,
                   const std::string& name, const std::string& title, const std::string& unit,
                   LayerLook look) {
  look = with_range(plans, look);
  const Layout layout = layout_of(model, plans.size(), across);
  Figure figure;
  figure.name = name;
  figure.caption = title;
  figure.size = {kWidth, layout.height()};
  std::vector<ColouredLayer> layers;
  layers.reserve(plans.size());
  for (const SmallPlan& plan : plans) layers.push_back(coloured(plan.raster, look));
  const auto kept = std::make_shared<const std::vector<SmallPlan>>(std::move(plans));
  const auto drawn = std::make_shared<const std::vector<ColouredLayer>>(std::move(layers));
  figure.draw = [&model, kept, drawn, layout, title, unit, look](Canvas& canvas) {
    canvas.words({6.0, 7.0}, isolated(model.site.name) + ": " + title,
                 {.size = 3.4, .bold = true, .ltr = true});
    PlanFrame frame;
    for (std::size_t k = 0; k < kept->size(); ++k) {
      const Vec2 at = layout.at(static_cast<int>(k));
      const Vec2 plan_at = at + Vec2{0.0, kLabel};
      frame = fit(small_area(model), plan_at, layout.room);
      canvas.words(at + Vec2{0.0, 3.4}, (*kept)[k].label, {.size = 2.5});
      canvas.clip_to({plan_at, plan_at + Vec2{layout.room.x, 0.0}, plan_at + layout.room,
                      plan_at + Vec2{0.0, layout.room.y}});
      draw_layer(canvas, model, (*drawn)[k], frame);
      draw_site(canvas, model, frame, {.contours = false, .names = false});
      canvas.unclip();
    }
    if (kept->empty()) return;
    const double side = kWidth - kSide + 4.0;
    draw_legend(canvas, kept->front().raster, look, {side, kTop + 9.0},
                {4.0, std::min(60.0, layout.height() - kTop - kFoot - 12.0)}, unit, "1");
    draw_scale_bar(canvas, frame, {6.0, layout.height() - kFoot + 2.0}, 40.0);
    draw_north_arrow(canvas, model, {70.0, layout.height() - kFoot + 7.0}, 8.0);
  };
  return figure;
}

}  // namespace hummock::draw
