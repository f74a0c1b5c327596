// The right side: what is chosen, the map on the ground, shaping, how it is drawn.
#include <cstdio>
#include <string>

#include "engine/maps/map_layers.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

bool folded(const char* label, bool open) {
  ImGui::SetNextItemOpen(open, ImGuiCond_Once);
  return ImGui::CollapsingHeader(label);
}

void drawing_options(Session& s) {
  Show& show = s.draw.show;
  bool changed = false;
  changed |= ImGui::Checkbox("fence", &show.fence);
  ImGui::SameLine();
  changed |= ImGui::Checkbox("roof", &show.roof);
  ImGui::SameLine();
  changed |= ImGui::Checkbox("leaves", &show.leaves);
  changed |= ImGui::Checkbox("things", &show.objects);
  ImGui::SameLine();
  changed |= ImGui::Checkbox("surroundings", &show.surroundings);
  auto& p = s.preferences;
  if (ImGui::Checkbox("sun shadows", &p.shadows)) {
    s.draw.shadows = p.shadows;
    changed = true;
  }
  bool grid = p.grid > 0.0;
  ImGui::SameLine();
  if (ImGui::Checkbox("1 m grid", &grid)) {
    p.grid = grid ? 1.0 : 0.0;
    s.draw.grid = p.grid;
    changed = true;
  }
  bool contour = p.contour > 0.0;
  if (ImGui::Checkbox("contours, 10 cm", &contour)) {
    p.contour = contour ? 0.1 : 0.0;
    s.draw.contour = p.contour;
    changed = true;
  }
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted("Smooth edges");
  for (const int samples : {1, 2, 4, 8}) {
    ImGui::SameLine(0.0F, 4.0F);
    if (toggle_button(samples == 1 ? "off" : std::to_string(samples).c_str(),
                      p.samples == samples)) {
      p.samples = samples;
      changed = true;
    }
  }
  if (changed) s.redraw = true;
}

}  // namespace

void map_section(Session& s) {
  const std::string shown = [&] {
    for (const auto& info : maps::layers())
      if (info.name == s.layer) return info.title;
    return std::string("none");
  }();
  ImGui::SetNextItemWidth(-1.0F);
  if (ImGui::BeginCombo("##layer", shown.c_str(), ImGuiComboFlags_HeightLarge)) {
    if (ImGui::Selectable("none", s.layer.empty())) choose_layer(s, "");
    mark_item(s, "layer none");
    for (const auto& info : maps::layers()) {
      const std::string label =
          info.title + (info.unit.empty() ? std::string() : " (" + info.unit + ")");
      if (ImGui::Selectable(label.c_str(), s.layer == info.name)) choose_layer(s, info.name);
      mark_item(s, ("layer " + info.name).c_str());
    }
    ImGui::EndCombo();
  }
  mark_item(s, "layers");
  if (s.layer.empty()) {
    soft_text("Choose what to see on the ground.");
    return;
  }
  if (!s.study.paint_trouble().empty()) {
    toned(tone::short_of(), "▼ This map cannot be made");
    soft_text(s.study.paint_trouble().c_str());
    return;
  }
  if (layer_current(s))
    toned(tone::met(), "● current");
  else
    toned(tone::tight(), "◐ being worked out …");
  if (const auto look = layer_look(s); look && !look->says.empty()) soft_text(look->says.c_str());
}

void shape_section(Session& s) {
  Brush& b = s.brush;
  if (toggle_button(s.tool == Tool::shape ? "Shaping: drag on the ground" : "Shape the ground",
                    s.tool == Tool::shape))
    s.tool = s.tool == Tool::shape ? Tool::hand : Tool::shape;
  mark_item(s, "shape");
  tip("Each stroke adds ground forms to the site file: mounds, ridges, hollows, benches (G)");
  if (s.tool != Tool::shape) return;
  static constexpr const char* kNames[] = {"Raise", "Lower", "Smooth", "Flatten"};
  for (int k = 0; k < 4; ++k) {
    if (k > 0) ImGui::SameLine(0.0F, 4.0F);
    if (toggle_button(kNames[k], static_cast<int>(b.kind) == k))
      b.kind = static_cast<StrokeKind>(k);
    mark_item(s, (std::string("brush ") + kNames[k]).c_str());
  }
  number_field(s, "Radius", &b.radius, 0.02F, 0.1, 20.0, "%.2f m", "brush radius");
  if (b.kind == StrokeKind::raise || b.kind == StrokeKind::lower)
    number_field(s, "Height of a stroke", &b.strength, 0.01F, 0.01, 5.0, "%.2f m",
                 "brush strength");
  if (b.kind == StrokeKind::smooth)
    number_field(s, "Strength", &b.strength, 0.01F, 0.05, 1.0, "%.2f", "brush strength");
  if (b.kind == StrokeKind::flatten) soft_text("Levels the ground to where the stroke begins.");
}

void side_panel(Session& s, const Layout& l) {
  ImGui::SetNextWindowPos({l.screen.x - l.right, l.top});
  ImGui::SetNextWindowSize({l.right, l.screen.y - l.top - l.status});
  ImGui::Begin("side", nullptr,
               ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus);
  if (folded("Chosen", true)) thing_section(s);
  if (folded("Map on the ground", true)) map_section(s);
  if (folded("Ground", true)) shape_section(s);
  if (folded("Drawing", false)) drawing_options(s);
  ImGui::End();
}

}  // namespace hummock::viewer
