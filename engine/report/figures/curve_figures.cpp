#include "engine/report/figures/curve_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/report/chapters/numbers.h"

namespace hummock::report {
namespace {

using draw::Canvas;
using draw::Pen;

constexpr Vec2 kCurveAt{18.0, 14.0};  // mm, of the field
constexpr Vec2 kCurveRoom{126.0, 70.0};
constexpr draw::Colour kHot{0.93, 0.90, 0.84, 1.0};

struct Curve {
  std::string label;
  std::vector<Vec2> points;  // clock hours, share 0..1
  Pen pen;
};

double clock_hours(const Place& place, sun::Instant when, sun::Date date) {
  const sun::Instant midnight = sun::instant(place, date, 0.0);
  return 24.0 * (when.ut_days - midnight.ut_days);
}

Curve curve_of(const Place& place, const shade::Day& day, const std::string& label,
               const Pen& pen) {
  Curve curve{label, {}, pen};
  for (std::size_t k = 0; k < day.times.size(); ++k) {
    curve.points.push_back({clock_hours(place, day.times[k].when, day.date), day.shaded_share[k]});
  }
  return curve;
}

std::vector<Curve> curves_of(const Place& place, const shade::Day& day,
                             const std::vector<shade::Day>& seasons) {
  std::vector<Curve> curves{
      curve_of(place, day, sun::text(day.date) + " (design day)", {draw::kInk, 0.7})};
  const std::array<std::vector<double>, 4> dashes{
      {{2.4, 1.0}, {0.6, 0.8}, {3.0, 0.8, 0.6, 0.8}, {1.2, 1.2}}};
  for (std::size_t k = 0; k < seasons.size(); ++k) {
    if (seasons[k].date == day.date || seasons[k].times.empty()) continue;
    curves.push_back(curve_of(place, seasons[k], sun::text(seasons[k].date),
                              {{0.30, 0.32, 0.36, 1.0}, 0.4, dashes[k % dashes.size()]}));
  }
  return curves;
}

struct Field {
  double from = 0.0, to = 24.0;  // h
  Vec2 sheet(double hours, double share) const {
    return {kCurveAt.x + kCurveRoom.x * (hours - from) / (to - from),
            kCurveAt.y + kCurveRoom.y * (1.0 - share)};
  }
};

Field field_of(const std::vector<Curve>& curves) {
  Field field{24.0, 0.0};
  for (const Curve& curve : curves) {
    for (Vec2 p : curve.points) {
      field.from = std::min(field.from, std::floor(p.x));
      field.to = std::max(field.to, std::ceil(p.x));
    }
  }
  return field;
}

std::string clock_label(int hours) {
  return fmt::format("{}", ((hours % 24) + 24) % 24);
}

void draw_axes(Canvas& canvas, const Field& field, double area_per_animal) {
  for (int percent = 0; percent <= 100; percent += 20) {
    const Vec2 at = field.sheet(field.from, percent / 100.0);
    canvas.line({at, at + Vec2{kCurveRoom.x, 0.0}}, {{0.82, 0.82, 0.82, 1.0}, 0.12});
    canvas.words(at + Vec2{-2.0, 0.9}, fmt::format("{} %", percent),
                 {.size = 2.4, .anchor = draw::Anchor::end});
    canvas.words(at + Vec2{kCurveRoom.x + 2.0, 0.9}, number(percent / 100.0 * area_per_animal),
                 {.size = 2.4});
  }
  const int every = field.to - field.from > 14.0 ? 2 : 1;
  for (int h = static_cast<int>(field.from); h <= static_cast<int>(field.to); h += every) {
    const Vec2 at = field.sheet(h, 0.0);
    canvas.line({at, at + Vec2{0.0, 1.2}}, {draw::kInk, 0.2});
    canvas.words(at + Vec2{0.0, 4.4}, clock_label(h),
                 {.size = 2.4, .anchor = draw::Anchor::middle});
  }
  canvas.line({kCurveAt, kCurveAt + Vec2{0.0, kCurveRoom.y}, kCurveAt + kCurveRoom},
              {draw::kInk, 0.25});
  canvas.words(kCurveAt + Vec2{0.5 * kCurveRoom.x, kCurveRoom.y + 9.0}, "clock of the place, h",
               {.size = 2.5, .anchor = draw::Anchor::middle});
  canvas.words(kCurveAt + Vec2{-14.0, -3.0}, "ground in shade", {.size = 2.5});
  canvas.words(kCurveAt + Vec2{kCurveRoom.x, -3.0}, "m² of shade for each animal",
               {.size = 2.5, .anchor = draw::Anchor::middle});
}

}  // namespace

std::optional<draw::Figure> shade_curve(const Model& model, const shade::Day& day,
                                        const std::vector<shade::Day>& seasons,
                                        const shade::Settings& settings) {
  if (day.times.empty() || !model.site.place) return std::nullopt;
  const Place& place = *model.site.place;
  const auto curves = curves_of(place, day, seasons);
  const double transit = clock_hours(place, day.sun.transit, day.date);
  const double per_animal =
      std::abs(geom::signed_area(model.outline)) / std::max(1, model.site.animals);
  draw::Figure figure;
  figure.name = "shade-curve";
  figure.size = {180.0, 100.0};
  figure.caption = fmt::format(
      "Share of the ground in shade over the day, and the same in m² for each of {} animals; a "
      "cell "
      "is in shade when less than half of the beam arrives. The grey band is 11 to 15 h by the "
      "sun; "
      "the least shade in it is {} m² for each animal, at {}. Steps of {:g} minutes; season days "
      "on "
      "coarser cells.",
      model.site.animals, number(day.hottest_shade_m2_per_animal), hottest_in_words(day),
      settings.step_minutes);
  figure.draw = [curves, transit, per_animal, name = model.site.name](Canvas& canvas) {
    const Field field = field_of(curves);
    canvas.words({6.0, 7.0}, draw::isolated(name) + ": shade over the day",
                 {.size = 3.4, .bold = true, .ltr = true});
    canvas.fill({field.sheet(transit - 1.0, 1.0), field.sheet(transit + 3.0, 1.0),
                 field.sheet(transit + 3.0, 0.0), field.sheet(transit - 1.0, 0.0)},
                kHot);
    draw_axes(canvas, field, per_animal);
    for (const Curve& curve : curves) {
      std::vector<Vec2> line;
      for (Vec2 p : curve.points) line.push_back(field.sheet(p.x, p.y));
      canvas.line(line, curve.pen);
    }
    double x = kCurveAt.x;
    for (const Curve& curve : curves) {
      canvas.line({{x, 97.0}, {x + 7.0, 97.0}}, curve.pen);
      canvas.words({x + 8.5, 97.8}, curve.label, {.size = 2.3});
      x += 12.0 + canvas.width_of(curve.label, {.size = 2.3});
    }
  };
  return figure;
}

}  // namespace hummock::report
