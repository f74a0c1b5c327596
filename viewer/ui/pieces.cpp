#include <cstdio>

#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {

void mark_item(Session& s, const char* name) {
  const ImVec2 lo = ImGui::GetItemRectMin();
  const ImVec2 hi = ImGui::GetItemRectMax();
  s.widgets[name] = {(lo.x + hi.x) / 2.0, (lo.y + hi.y) / 2.0};
}

void tip(const char* words) {
  if (!ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) return;
  ImGui::BeginTooltip();
  ImGui::PushTextWrapPos(ImGui::GetFontSize() * 22.0F);
  ImGui::TextUnformatted(words);
  ImGui::PopTextWrapPos();
  ImGui::EndTooltip();
}

void toned(Colour colour, const char* words) {
  ImGui::PushStyleColor(ImGuiCol_Text, imgui_colour(colour));
  ImGui::TextUnformatted(words);
  ImGui::PopStyleColor();
}

void soft_text(const char* words) {
  ImGui::PushStyleColor(ImGuiCol_Text, imgui_colour(tone::ink_soft()));
  ImGui::PushTextWrapPos(0.0F);
  ImGui::TextUnformatted(words);
  ImGui::PopTextWrapPos();
  ImGui::PopStyleColor();
}

void heading(const char* words) {
  ImGui::Dummy({0.0F, ImGui::GetFontSize() * 0.25F});
  toned(tone::accent(), words);
  const ImVec2 p = ImGui::GetCursorScreenPos();
  ImGui::GetWindowDrawList()->AddLine({p.x, p.y - 2.0F},
                                      {p.x + ImGui::GetContentRegionAvail().x, p.y - 2.0F},
                                      imgui_packed(tone::hair()));
  ImGui::Dummy({0.0F, 1.0F});
}

bool toggle_button(const char* label, bool on) {
  if (on) {
    ImGui::PushStyleColor(ImGuiCol_Button, imgui_colour(tone::accent()));
    ImGui::PushStyleColor(ImGuiCol_ButtonHovered, imgui_colour(tone::accent()));
    ImGui::PushStyleColor(ImGuiCol_Text, imgui_colour(tone::paper()));
  }
  const bool pressed = ImGui::Button(label);
  if (on) ImGui::PopStyleColor(3);
  return pressed;
}

Field number_field(Session& s, const char* label, double* value, float speed, double least,
                   double most, const char* format, const char* name) {
  const float width = ImGui::GetContentRegionAvail().x;
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(label);
  ImGui::SameLine(width * 0.46F);
  ImGui::SetNextItemWidth(width * 0.54F);
  ImGui::PushID(name);
  Field out;
  out.moving = ImGui::DragScalar("##value", ImGuiDataType_Double, value, speed, &least, &most,
                                 format, ImGuiSliderFlags_AlwaysClamp);
  out.done = ImGui::IsItemDeactivatedAfterEdit();
  mark_item(s, name);
  if (!ImGui::IsItemActive()) tip("Drag sideways, or double-click and type a number");
  ImGui::PopID();
  return out;
}

}  // namespace hummock::viewer
