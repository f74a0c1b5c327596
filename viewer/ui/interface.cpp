#include <algorithm>

#include "viewer/app/show/layers.h"
#include "viewer/app/tools/keys.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

PointerState read_pointer(const Session& s, const Layout& l) {
  const ImGuiIO& io = ImGui::GetIO();
  PointerState p;
  const float per_unit =
      l.scene_size.x > 0.0F ? static_cast<float>(s.view.width) / l.scene_size.x : 1.0F;
  p.at = {(io.MousePos.x - l.scene_at.x) * per_unit, (io.MousePos.y - l.scene_at.y) * per_unit};
  const bool over = io.MousePos.x >= l.scene_at.x && io.MousePos.y >= l.scene_at.y &&
                    io.MousePos.x < l.scene_at.x + l.scene_size.x &&
                    io.MousePos.y < l.scene_at.y + l.scene_size.y;
  p.inside = over && !io.WantCaptureMouse;
  p.left_pressed = ImGui::IsMouseClicked(ImGuiMouseButton_Left);
  p.left_down = ImGui::IsMouseDown(ImGuiMouseButton_Left);
  p.left_released = ImGui::IsMouseReleased(ImGuiMouseButton_Left);
  p.right_pressed = ImGui::IsMouseClicked(ImGuiMouseButton_Right) ||
                    ImGui::IsMouseClicked(ImGuiMouseButton_Middle);
  p.right_down =
      ImGui::IsMouseDown(ImGuiMouseButton_Right) || ImGui::IsMouseDown(ImGuiMouseButton_Middle);
  p.right_released = !p.right_down;
  p.twice = ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left);
  p.wheel = io.MouseWheel;
  p.shift = io.KeyShift;
  return p;
}

// The edge between a side panel and the scene: drag to widen.
void divider(Session& s, const char* id, float x, const Layout& l, double& width, float sense) {
  const float grip = 5.0F * static_cast<float>(s.ui_scale);
  ImGui::SetNextWindowPos({x - grip / 2.0F, l.top});
  ImGui::SetNextWindowSize({grip, l.screen.y - l.top - l.status});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowMinSize, {1, 1});
  ImGui::Begin(id, nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoSavedSettings);
  ImGui::InvisibleButton("grip", {grip, l.screen.y - l.top - l.status});
  if (ImGui::IsItemHovered() || ImGui::IsItemActive())
    ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
  if (ImGui::IsItemActive()) {
    const double most = l.screen.x * 0.42 / ImGui::GetFontSize();
    width = std::clamp(width + sense * ImGui::GetIO().MouseDelta.x / ImGui::GetFontSize(), 12.0,
                       std::max(12.0, most));
    s.redraw = true;
  }
  ImGui::End();
  ImGui::PopStyleVar(2);
}

void show_scene(const Session& s, const Layout& l) {
  const ImVec2 to{l.scene_at.x + l.scene_size.x, l.scene_at.y + l.scene_size.y};
  ImGui::GetBackgroundDrawList()->AddImage(
      reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(s.target.texture())), l.scene_at, to,
      {0, 1}, {1, 0});
}

}  // namespace

Layout lay_out(const Session& s) {
  Layout l;
  l.screen = ImGui::GetIO().DisplaySize;
  const float em = ImGui::GetFontSize();
  l.top = std::round(em * 2.7F);
  l.status = std::round(em * 1.8F);
  const auto& p = s.preferences;
  l.time = p.time_open ? std::round(em * 7.0F) : 0.0F;
  l.left = p.left_open ? std::round(em * static_cast<float>(p.left_width)) : 0.0F;
  l.right = p.right_open ? std::round(em * static_cast<float>(p.right_width)) : 0.0F;
  // A small window keeps at least a third for the scene.
  const float most = l.screen.x * 0.66F;
  if (l.left + l.right > most) {
    const float share = most / (l.left + l.right);
    l.left = std::round(l.left * share);
    l.right = std::round(l.right * share);
  }
  l.scene_at = {l.left, l.top};
  l.scene_size = {std::max(1.0F, l.screen.x - l.left - l.right),
                  std::max(1.0F, l.screen.y - l.top - l.status - l.time)};
  return l;
}

void draw_interface(Session& s, const Layout& l) {
  s.widgets.clear();
  show_scene(s, l);
  scene_overlay(s, l);
  top_bar(s, l);
  if (l.left > 0.0F) findings_panel(s, l);
  if (l.right > 0.0F) side_panel(s, l);
  if (l.time > 0.0F) time_bar(s, l);
  status_line(s, l);
  if (l.left > 0.0F) divider(s, "left edge", l.left, l, s.preferences.left_width, 1.0F);
  if (l.right > 0.0F)
    divider(s, "right edge", l.screen.x - l.right, l, s.preferences.right_width, -1.0F);
  first_hints(s, l);
  dialogs(s, l);
  use_pointer(s, read_pointer(s, l));
  use_keys(s);
}

}  // namespace hummock::viewer
