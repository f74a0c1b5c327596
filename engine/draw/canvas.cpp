#include "engine/draw/canvas.h"

#include <cairo.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>

#include "engine/base/printable.h"

namespace hummock::draw {
namespace {

void use(cairo_t* cairo, const Colour& c) {
  cairo_set_source_rgba(cairo, c.r, c.g, c.b, c.a);
}

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
using LayoutPtr = std::unique_ptr<PangoLayout, Unref>;

double in_mm(int pango_units) {
  return static_cast<double>(pango_units) / PANGO_SCALE;
}

geom::Box2 box_of(const std::vector<Vec2>& points) {
  geom::Box2 box;
  for (Vec2 p : points) box.add(p);
  return box;
}

}  // namespace

void Canvas::path(const std::vector<Vec2>& points, bool closed) {
  cairo_new_path(cairo_);
  for (Vec2 p : points) cairo_line_to(cairo_, p.x, p.y);
  if (closed) cairo_close_path(cairo_);
}

void Canvas::set(const Pen& pen) {
  use(cairo_, pen.colour);
  cairo_set_line_width(cairo_, pen.width);
  cairo_set_dash(cairo_, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0.0);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap(cairo_, pen.dashes.empty() ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
}

void Canvas::line(const std::vector<Vec2>& points, const Pen& pen, bool closed) {
  if (points.size() < 2) return;
  path(points, closed);
  set(pen);
  cairo_stroke(cairo_);
}

void Canvas::fill(const std::vector<Vec2>& points, const Colour& colour) {
  path(points, true);
  use(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::fill(const std::vector<std::vector<Vec2>>& lines, const Colour& colour) {
  cairo_new_path(cairo_);
  for (const auto& points : lines) {
    cairo_new_sub_path(cairo_);
    for (Vec2 p : points) cairo_line_to(cairo_, p.x, p.y);
    cairo_close_path(cairo_);
  }
  use(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::hatch(const std::vector<Vec2>& points, const Pen& pen, double gap, double turn) {
  const geom::Box2 box = box_of(points);
  const Vec2 middle = (box.lo + box.hi) * 0.5;
  const double reach = geom::length(box.hi - box.lo) * 0.5 + gap;
  const Vec2 along{std::cos(turn), std::sin(turn)};
  const int count = static_cast<int>(reach / gap);
  clip_to(points);
  for (int k = -count; k <= count; ++k) {
    const Vec2 o = middle + geom::left_of(along) * (k * gap);
    line({o - along * reach, o + along * reach}, pen);
  }
  unclip();
}

void Canvas::circle(Vec2 centre, double radius, const Pen& pen) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, centre.x, centre.y, radius, 0.0, 2.0 * geom::kPi);
  set(pen);
  cairo_stroke(cairo_);
}

void Canvas::disc(Vec2 centre, double radius, const Colour& colour) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, centre.x, centre.y, radius, 0.0, 2.0 * geom::kPi);
  use(cairo_, colour);
  cairo_fill(cairo_);
}

void Canvas::arrow(Vec2 from, Vec2 to, const Pen& pen) {
  const Vec2 u = geom::unit(to - from);
  const double head = 5.0 * pen.width + 0.8;
  line({from, to - u * (0.8 * head)}, pen);
  const Vec2 side = geom::left_of(u) * (0.4 * head);
  fill({to, to - u * head + side, to - u * head - side}, pen.colour);
}

std::string isolated(const std::string& name) {
  const bool ascii = std::all_of(name.begin(), name.end(),
                                 [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  return ascii ? name : "\u2068" + name + "\u2069";
}

// Nothing is rounded to whole units: a unit here is a millimetre.
PangoLayout* Canvas::layout(const std::string& text, const Words& style) const {
  const std::unique_ptr<PangoContext, Unref> context(pango_cairo_create_context(cairo_));
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context.get(), options);
  cairo_font_options_destroy(options);
  PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans");
  pango_font_description_set_absolute_size(font, style.size * PANGO_SCALE);
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  PangoLayout* made = pango_layout_new(context.get());
  pango_layout_set_font_description(made, font);
  pango_font_description_free(font);
  if (style.ltr) {
    pango_context_set_base_dir(context.get(), PANGO_DIRECTION_LTR);
    pango_layout_context_changed(made);
    pango_layout_set_auto_dir(made, FALSE);
  }
  const std::string fit = drawable(text);  // Cairo stops at what no text may hold
  pango_layout_set_text(made, fit.data(), static_cast<int>(fit.size()));
  return made;
}

double Canvas::width_of(const std::string& text, const Words& style) const {
  const LayoutPtr laid(layout(text, style));
  PangoRectangle logical;
  pango_layout_get_extents(laid.get(), nullptr, &logical);
  return in_mm(logical.width);
}

void Canvas::words(Vec2 at, const std::string& text, const Words& style) {
  const LayoutPtr laid(layout(text, style));
  pango_layout_set_single_paragraph_mode(laid.get(), TRUE);
  PangoRectangle logical;
  pango_layout_get_extents(laid.get(), nullptr, &logical);
  const double share =
      style.anchor == Anchor::start ? 0.0 : (style.anchor == Anchor::middle ? 0.5 : 1.0);
  cairo_save(cairo_);
  cairo_translate(cairo_, at.x, at.y);
  cairo_rotate(cairo_, style.turn);
  cairo_translate(cairo_, -share * in_mm(logical.width),
                  -in_mm(pango_layout_get_baseline(laid.get())));
  cairo_new_path(cairo_);
  if (style.halo) {
    cairo_move_to(cairo_, 0.0, 0.0);
    pango_cairo_layout_path(cairo_, laid.get());
    set({{1.0, 1.0, 1.0, 0.85}, 0.35 * style.size});
    cairo_stroke(cairo_);
  }
  cairo_move_to(cairo_, 0.0, 0.0);
  use(cairo_, style.colour);
  pango_cairo_show_layout(cairo_, laid.get());
  cairo_restore(cairo_);
}

namespace {

void wrap(PangoLayout* laid, double width, Anchor anchor) {
  pango_layout_set_width(laid, static_cast<int>(std::lround(width * PANGO_SCALE)));
  pango_layout_set_wrap(laid, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_line_spacing(laid, 1.15F);
  if (anchor == Anchor::end) pango_layout_set_alignment(laid, PANGO_ALIGN_RIGHT);
  if (anchor == Anchor::middle) pango_layout_set_alignment(laid, PANGO_ALIGN_CENTER);
}

double height_of(PangoLayout* laid) {
  PangoRectangle logical;
  pango_layout_get_extents(laid, nullptr, &logical);
  return in_mm(logical.y + logical.height);
}

}  // namespace

double Canvas::paragraph(Vec2 top_left, double width, const std::string& text, const Words& style) {
  const LayoutPtr laid(layout(text, style));
  wrap(laid.get(), width, style.anchor);
  cairo_new_path(cairo_);
  cairo_move_to(cairo_, top_left.x, top_left.y);
  use(cairo_, style.colour);
  pango_cairo_show_layout(cairo_, laid.get());
  return height_of(laid.get());
}

double Canvas::paragraph_height(double width, const std::string& text, const Words& style) const {
  const LayoutPtr laid(layout(text, style));
  wrap(laid.get(), width, style.anchor);
  return height_of(laid.get());
}

void Canvas::picture(Vec2 top_left, Vec2 extent, int w, int h,
                     const std::vector<std::uint32_t>& argb, bool smooth) {
  cairo_surface_t* image = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, w, h);
  unsigned char* rows = cairo_image_surface_get_data(image);
  const int stride = cairo_image_surface_get_stride(image);
  for (int y = 0; y < h; ++y) {
    std::memcpy(rows + static_cast<std::ptrdiff_t>(y) * stride,
                argb.data() + static_cast<std::ptrdiff_t>(y) * w, static_cast<std::size_t>(w) * 4);
  }
  cairo_surface_mark_dirty(image);
  cairo_save(cairo_);
  cairo_translate(cairo_, top_left.x, top_left.y);
  cairo_scale(cairo_, extent.x / w, extent.y / h);
  cairo_set_source_surface(cairo_, image, 0.0, 0.0);
  cairo_pattern_set_filter(cairo_get_source(cairo_),
                           smooth ? CAIRO_FILTER_BILINEAR : CAIRO_FILTER_NEAREST);
  cairo_paint(cairo_);
  cairo_restore(cairo_);
  cairo_surface_destroy(image);
}

void Canvas::clip_to(const std::vector<Vec2>& points) {
  cairo_save(cairo_);
  path(points, true);
  cairo_clip(cairo_);
}

void Canvas::unclip() {
  cairo_restore(cairo_);
}

void Canvas::inset(Vec2 at, const Figure& figure) {
  cairo_save(cairo_);
  cairo_translate(cairo_, at.x, at.y);
  Canvas inner(cairo_, figure.size);
  inner.clip_to({{0, 0}, {figure.size.x, 0}, figure.size, {0, figure.size.y}});
  figure.draw(inner);
  inner.unclip();
  cairo_restore(cairo_);
}

}  // namespace hummock::draw
