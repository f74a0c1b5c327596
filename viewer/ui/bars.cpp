// The bar above and the line below.
#include <cstdio>
#include <string>

#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"
#include "viewer/app/tools/keys.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

constexpr ImGuiWindowFlags kFixed = ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                                    ImGuiWindowFlags_NoSavedSettings |
                                    ImGuiWindowFlags_NoBringToFrontOnFocus;

void bar_button(Session& s, const char* label, const char* name, const char* words, bool usable,
                void (*act)(Session&)) {
  ImGui::BeginDisabled(!usable);
  if (ImGui::Button(label)) act(s);
  ImGui::EndDisabled();
  mark_item(s, name);
  tip(words);
  ImGui::SameLine();
}

void view_button(Session& s, const char* label, const char* name, const char* words, bool on,
                 void (*act)(Session&)) {
  if (toggle_button(label, on)) act(s);
  mark_item(s, name);
  tip(words);
  ImGui::SameLine(0.0F, ImGui::GetFontSize() * 0.2F);
}

bool flat_towards(const Session& s, double heading) {
  const Camera& c = s.draw.camera;
  return c.stance == Stance::flat && c.tilt == 0.0 &&
         std::abs(std::remainder(c.heading - heading, 2.0 * geom::kPi)) < 1e-9;
}

void gap() {
  ImGui::SameLine(0.0F, ImGui::GetFontSize() * 1.1F);
}

void view_buttons(Session& s) {
  const Camera& c = s.draw.camera;
  view_button(s, "Whole", "view whole", "The whole yard (1)", false,
              [](Session& t) { look_at_whole(t); });
  view_button(s, "Plan", "view plan", "Straight down, to scale (2)",
              c.stance == Stance::flat && c.tilt > 1.0, [](Session& t) { look_at_plan(t); });
  view_button(s, "S", "view south", "Elevation from the south (3)", flat_towards(s, 0.0),
              [](Session& t) { look_from(t, "south"); });
  view_button(s, "E", "view east", "Elevation from the east (4)", flat_towards(s, -geom::kPi / 2.0),
              [](Session& t) { look_from(t, "east"); });
  view_button(s, "N", "view north", "Elevation from the north (5)", flat_towards(s, geom::kPi),
              [](Session& t) { look_from(t, "north"); });
  view_button(s, "W", "view west", "Elevation from the west (6)", flat_towards(s, geom::kPi / 2.0),
              [](Session& t) { look_from(t, "west"); });
  view_button(s, "Guest", "view guest", "Walk at a guest's eye height: arrows walk, drag looks (7)",
              s.walk_as == "guest", [](Session& t) { walk_as_guest(t); });
  view_button(s, "Animal", "view animal",
              "Walk at the animal's own eye height: arrows walk, drag looks (8)",
              s.walk_as == "animal", [](Session& t) { walk_as_animal(t); });
  gap();
  if (toggle_button("Cut", s.cut.on)) {
    s.cut.on = !s.cut.on;
    s.cut.heading = s.draw.camera.heading;
    update_cut(s);
  }
  mark_item(s, "cut");
  tip("Cut the model open with an upright plane facing you (C)");
  if (s.cut.on) {
    ImGui::SameLine();
    ImGui::SetNextItemWidth(ImGui::GetFontSize() * 7.0F);
    float at = static_cast<float>(s.cut.at);
    const auto reach = static_cast<float>(s.draw.camera.reach);
    if (ImGui::SliderFloat("##cut at", &at, -reach, reach, "%.1f m")) {
      s.cut.at = at;
      update_cut(s);
    }
    mark_item(s, "cut at");
    tip("How far in the cut lies");
  }
}

std::string coordinates(const Session& s, Vec3 at) {
  const Vec3 p = model(s)->to_site(at);
  char text[96];
  std::snprintf(text, sizeof text, "x %.2f  y %.2f  z %.2f m", p.x, p.y, p.z);
  return text;
}

// What lies under the pointer: its name, place and the layer's value.
std::string read_out(const Session& s) {
  if (!s.under_pointer || model(s) == nullptr) return "";
  std::string out = coordinates(s, *s.under_pointer);
  if (s.pointed_part >= 0 && s.pointed_part < static_cast<int>(model(s)->parts.size()))
    out += "   " + model(s)->parts[static_cast<std::size_t>(s.pointed_part)].name;
  const auto look = layer_look(s);
  const auto value = layer_value(s, geom::xy(*s.under_pointer));
  if (look && value && s.pointed_part < 0) {
    char text[96];
    std::snprintf(text, sizeof text, "   %s %.3g %s", look->title.c_str(), *value,
                  look->unit.c_str());
    out += text;
  } else if (look) {
    out += "   " + look->title + " –";
  }
  return out;
}

}  // namespace

void top_bar(Session& s, const Layout& l) {
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({l.screen.x, l.top});
  ImGui::Begin("above", nullptr, kFixed);
  const float em = ImGui::GetFontSize();
  ImGui::AlignTextToFramePadding();
  const std::string name =
      (s.site && !s.site->name.empty() ? s.site->name : s.document.file().filename().string()) +
      (s.document.dirty() ? " •" : "");
  ImGui::TextUnformatted(name.c_str());
  mark_item(s, "name");
  tip((s.document.file().string() +
       (s.document.dirty() ? "\nChanged and not saved. Unsaved work is kept for you if the program "
                             "stops."
                           : "\nSaved."))
          .c_str());
  gap();
  bar_button(s, "Save", "save", "Write the site file (Ctrl+S)", s.document.dirty(),
             [](Session& t) { save(t, false); });
  const std::string undo_tip = "Undo: " + s.document.undo_name() + " (Ctrl+Z)";
  const std::string redo_tip = "Redo: " + s.document.redo_name() + " (Ctrl+Y)";
  bar_button(s, "Undo", "undo", undo_tip.c_str(), s.document.can_undo(),
             [](Session& t) { undo(t); });
  bar_button(s, "Redo", "redo", redo_tip.c_str(), s.document.can_redo(),
             [](Session& t) { redo(t); });
  gap();
  view_buttons(s);
  const float right = em * 9.2F;
  ImGui::SameLine(std::max(ImGui::GetCursorPosX(), l.screen.x - right));
  bar_button(s, "Picture", "picture", "Save what you see as a picture (Ctrl+P)", true,
             [](Session& t) { t.picture_open = true; });
  bar_button(s, "Help", "help", "Mouse and keys (F1)", true,
             [](Session& t) { t.help_open = !t.help_open; });
  const ImVec2 at = ImGui::GetWindowPos();
  ImGui::GetWindowDrawList()->AddLine({at.x, at.y + l.top - 1.0F},
                                      {at.x + l.screen.x, at.y + l.top - 1.0F},
                                      imgui_packed(tone::hair()));
  ImGui::End();
}

void status_line(Session& s, const Layout& l) {
  ImGui::SetNextWindowPos({0, l.screen.y - l.status});
  ImGui::SetNextWindowSize({l.screen.x, l.status});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding,
                      {ImGui::GetStyle().WindowPadding.x, ImGui::GetFontSize() * 0.3F});
  ImGui::PushStyleColor(ImGuiCol_WindowBg, imgui_colour(tone::paper_deep()));
  ImGui::Begin("below", nullptr, kFixed);
  const std::string caution = "A calculation aid, no safety guarantee";
  const float width = ImGui::CalcTextSize(caution.c_str()).x;
  if (s.now < s.note_until)
    toned(s.note.rfind("Not", 0) == 0 ? tone::short_of() : tone::accent(), s.note.c_str());
  else
    ImGui::TextUnformatted(read_out(s).c_str());
  ImGui::SameLine(l.screen.x - width - ImGui::GetStyle().WindowPadding.x);
  toned(tone::ink_soft(), caution.c_str());
  mark_item(s, "caution");
  if (ImGui::IsItemClicked()) s.about_open = true;
  tip("What these figures are, and are not. Click to read more.");
  ImGui::End();
  ImGui::PopStyleColor();
  ImGui::PopStyleVar();
}

}  // namespace hummock::viewer
