// What is written over the scene: labels, handles, the legend, north, a scale bar, the brush.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

#include "viewer/app/show/day.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/tools/editing.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

struct Over {
  Session& s;
  const Layout& l;
  ImDrawList* draw;
  float em;

  ImVec2 screen(Vec2 pixel) const {
    const float k = s.view.width > 0 ? l.scene_size.x / static_cast<float>(s.view.width) : 1.0F;
    return {l.scene_at.x + static_cast<float>(pixel.x) * k,
            l.scene_at.y + static_cast<float>(pixel.y) * k};
  }
  std::optional<ImVec2> place(Vec3 p) const {
    const OnScreen seen = project(s.draw.camera, s.view, p);
    if (!seen.ahead) return std::nullopt;
    return screen(seen.pixel);
  }
  // Words on a slip of paper, so that they read over anything.
  void slip(ImVec2 middle, const std::string& words, Colour colour) const {
    const ImVec2 size = ImGui::CalcTextSize(words.c_str());
    const ImVec2 at{middle.x - size.x / 2.0F, middle.y - size.y / 2.0F};
    const float pad = em * 0.3F;
    draw->AddRectFilled({at.x - pad, at.y - pad * 0.6F},
                        {at.x + size.x + pad, at.y + size.y + pad * 0.6F},
                        imgui_packed(tone::paper(), 0.90F), 3.0F);
    draw->AddRect({at.x - pad, at.y - pad * 0.6F},
                  {at.x + size.x + pad, at.y + size.y + pad * 0.6F}, imgui_packed(colour, 0.8F),
                  3.0F);
    draw->AddText(at, imgui_packed(colour), words.c_str());
  }
  void labels() const {
    for (const Label& label : s.labels)
      if (const auto at = place(label.at)) slip(*at, label.text, label.colour);
  }
  void handles_of() const {
    for (const Handle& h : handles(s)) {
      if (!h.ahead) continue;
      const ImVec2 at = screen(h.pixel);
      const float r = 6.0F * static_cast<float>(s.ui_scale);
      draw->AddCircleFilled(at, r, imgui_packed(tone::paper()));
      draw->AddCircle(at, r, imgui_packed(tone::accent()), 0, 2.5F);
      const std::string name =
          h.kind == Handle::Kind::turn ? "handle turn" : "handle corner " + std::to_string(h.index);
      s.widgets[name] = {at.x, at.y};
    }
  }
  void ring(Vec3 centre, double radius, Colour colour) const {
    const Model* m = model(s);
    std::vector<ImVec2> points;
    for (int k = 0; k < 48; ++k) {
      const double a = 2.0 * geom::kPi * k / 48.0;
      const Vec2 p = geom::xy(centre) + Vec2{radius * std::cos(a), radius * std::sin(a)};
      if (const auto at = place(geom::at_height(p, geom::height_at(m->ground, p))))
        points.push_back(*at);
    }
    draw->AddPolyline(points.data(), static_cast<int>(points.size()), imgui_packed(colour),
                      ImDrawFlags_Closed, 2.0F);
  }
  void brush() const {
    if (s.tool != Tool::shape || !s.under_pointer || model(s) == nullptr) return;
    ring(*s.under_pointer, s.brush.radius, tone::accent());
  }
  void legend() const;
  void compass() const;
  void scale_bar() const;
};

std::string tick_words(double v, double step) {
  char text[24];
  const int places = step >= 1.0 ? 0 : step >= 0.1 ? 1 : 2;
  std::snprintf(text, sizeof text, "%.*f", places, v);
  return text;
}

void Over::legend() const {
  const auto look = layer_look(s);
  if (!look) return;
  const float width = em * 17.0F;
  const float height = em * (look->limit ? 5.6F : 4.5F);
  const ImVec2 at{l.scene_at.x + em, l.scene_at.y + em};
  draw->AddRectFilled(at, {at.x + width, at.y + height}, imgui_packed(tone::paper(), 0.93F), 4.0F);
  draw->AddRect(at, {at.x + width, at.y + height}, imgui_packed(tone::hair()), 4.0F);
  const std::string title = look->title + (look->unit.empty() ? "" : ", " + look->unit) +
                            (layer_current(s) ? "" : "  (of before the change)");
  draw->AddText({at.x + em * 0.7F, at.y + em * 0.4F}, imgui_packed(tone::ink()), title.c_str());
  const ImVec2 bar{at.x + em * 0.9F, at.y + em * 1.8F};
  const float length = width - em * 1.8F;
  constexpr int kSteps = 64;
  for (int k = 0; k < kSteps; ++k)
    draw->AddRectFilled({bar.x + length * k / kSteps, bar.y},
                        {bar.x + length * (k + 1) / kSteps, bar.y + em * 0.9F},
                        imgui_packed(scale_colour(look->scale, (k + 0.5) / kSteps)));
  const double span = look->high - look->low;
  const auto x = [&](double v) {
    return bar.x + length * static_cast<float>((v - look->low) / span);
  };
  const double step = look->ticks.size() > 1 ? look->ticks[1] - look->ticks[0] : span;
  for (const double v : look->ticks) {
    const std::string words = tick_words(v, step);
    draw->AddLine({x(v), bar.y + em * 0.9F}, {x(v), bar.y + em * 1.15F},
                  imgui_packed(tone::ink_soft()));
    draw->AddText({x(v) - ImGui::CalcTextSize(words.c_str()).x / 2.0F, bar.y + em * 1.15F},
                  imgui_packed(tone::ink_soft()), words.c_str());
  }
  if (look->limit && *look->limit > look->low && *look->limit < look->high) {
    const float lx = x(*look->limit);
    draw->AddLine({lx, bar.y - em * 0.25F}, {lx, bar.y + em * 0.95F},
                  imgui_packed(tone::short_of()), 2.5F);
    char text[96];
    std::snprintf(text, sizeof text, "| %s, %.3g %s", look->limit_words.c_str(), *look->limit,
                  look->unit.c_str());
    draw->AddText({at.x + em * 0.7F, bar.y + em * 2.4F}, imgui_packed(tone::short_of()), text);
  }
  // The value under the pointer, marked on the scale.
  if (s.under_pointer && s.pointed_part < 0)
    if (const auto v = layer_value(s, geom::xy(*s.under_pointer))) {
      const float px = x(std::clamp(*v, look->low, look->high));
      draw->AddTriangleFilled({px - 5.0F, bar.y - 7.0F}, {px + 5.0F, bar.y - 7.0F}, {px, bar.y},
                              imgui_packed(tone::ink()));
    }
}

void Over::compass() const {
  const Model* m = model(s);
  if (m == nullptr) return;
  const ImVec2 c{l.scene_at.x + l.scene_size.x - em * 2.8F, l.scene_at.y + em * 2.8F};
  const float r = em * 1.7F;
  draw->AddCircleFilled(c, r, imgui_packed(tone::paper(), 0.85F), 40);
  draw->AddCircle(c, r, imgui_packed(tone::hair()), 40);
  // +y of the drawing lies grid_north clockwise of true north.
  const double north = -(m->site.place ? m->site.place->grid_north : 0.0) - s.draw.camera.heading;
  const auto way = [&](double turn, float length) {
    const double a = north + turn;
    return ImVec2{c.x + length * static_cast<float>(std::sin(a)),
                  c.y - length * static_cast<float>(std::cos(a))};
  };
  draw->AddTriangleFilled(way(0.0, r * 0.78F), way(2.55, r * 0.45F), way(-2.55, r * 0.45F),
                          imgui_packed(tone::ink()));
  const ImVec2 n = way(0.0, r + em * 0.75F);
  draw->AddText({n.x - em * 0.35F, n.y - em * 0.55F}, imgui_packed(tone::ink()), "N");
  if (const auto sun = sun_now(s); sun && sun->elevation > 0.0) {
    const ImVec2 at = way(sun->azimuth, r * (1.0F - static_cast<float>(sun->elevation) * 0.5F));
    draw->AddCircleFilled(at, em * 0.33F, imgui_packed(hex("#E0A526")));
    draw->AddCircle(at, em * 0.33F, imgui_packed(tone::ink_soft()));
  }
}

void Over::scale_bar() const {
  if (s.view.width <= 0) return;
  // True for the middle of the view; exact all over in plan and elevation.
  const float k = l.scene_size.x / static_cast<float>(s.view.width);
  const double metre = k / pixel_size(s.draw.camera, s.view, s.draw.camera.target);
  double length = 0.1;
  for (const double v : {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0})
    if (v * metre <= em * 11.0) length = v;
  const float w = static_cast<float>(length * metre);
  const ImVec2 at{l.scene_at.x + l.scene_size.x - em * 1.2F - w,
                  l.scene_at.y + l.scene_size.y - em * 1.1F};
  draw->AddRectFilled({at.x - em * 0.5F, at.y - em * 1.3F},
                      {at.x + w + em * 0.5F, at.y + em * 0.6F}, imgui_packed(tone::paper(), 0.75F),
                      3.0F);
  draw->AddLine(at, {at.x + w, at.y}, imgui_packed(tone::ink()), 2.0F);
  for (const float x : {at.x, at.x + w})
    draw->AddLine({x, at.y - 4.0F}, {x, at.y + 4.0F}, imgui_packed(tone::ink()), 2.0F);
  char text[24];
  std::snprintf(text, sizeof text, length < 1.0 ? "%.1f m" : "%.0f m", length);
  draw->AddText({at.x + w / 2.0F - ImGui::CalcTextSize(text).x / 2.0F, at.y - em * 1.25F},
                imgui_packed(tone::ink()), text);
}

}  // namespace

void scene_overlay(Session& s, const Layout& l) {
  const Over over{s, l, ImGui::GetBackgroundDrawList(), ImGui::GetFontSize()};
  over.draw->PushClipRect(l.scene_at,
                          {l.scene_at.x + l.scene_size.x, l.scene_at.y + l.scene_size.y});
  over.brush();
  over.labels();
  over.handles_of();
  over.legend();
  over.compass();
  if (!s.walk_height) over.scale_bar();
  over.draw->PopClipRect();
}

}  // namespace hummock::viewer
