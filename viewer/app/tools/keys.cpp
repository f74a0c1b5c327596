#include "viewer/app/tools/keys.h"

#include <GLFW/glfw3.h>
#include <imgui.h>

#include <functional>

#include "viewer/app/show/day.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"
#include "viewer/app/tools/editing.h"

namespace hummock::viewer {
namespace {

struct Key {
  int code;
  bool control;
  bool shift;
  const char* keys;
  const char* does;
  void (*act)(Session&);
};

void let_go_of_all(Session& s) {
  if (s.help_open || s.about_open || s.picture_open) {
    s.help_open = s.about_open = s.picture_open = false;
  } else if (s.hold.kind != Hold::Kind::nothing) {
    s.hold = {};
    s.brush.path.clear();
    drop_proposal(s);
  } else if (s.tool == Tool::shape) {
    s.tool = Tool::hand;
  } else if (s.chosen.kind != Chosen::Kind::nothing) {
    s.chosen = {};
    update_marks(s);
  } else {
    show_nothing(s);
  }
}

void nudge(Session& s, Vec2 by) {
  auto object = chosen_object(s);
  if (!object || s.walk_height) return;
  object->at = object->at + by;
  commit_object(s, s.chosen.index, *object, "move " + object->name, "nudge " + object->name);
}

const std::vector<Key>& keys() {
  static const std::vector<Key> all{
      {GLFW_KEY_1, false, false, "1", "the whole yard", [](Session& s) { look_at_whole(s); }},
      {GLFW_KEY_2, false, false, "2", "plan, north of the drawing up",
       [](Session& s) { look_at_plan(s); }},
      {GLFW_KEY_3, false, false, "3", "elevation from the south",
       [](Session& s) { look_from(s, "south"); }},
      {GLFW_KEY_4, false, false, "4", "elevation from the east",
       [](Session& s) { look_from(s, "east"); }},
      {GLFW_KEY_5, false, false, "5", "elevation from the north",
       [](Session& s) { look_from(s, "north"); }},
      {GLFW_KEY_6, false, false, "6", "elevation from the west",
       [](Session& s) { look_from(s, "west"); }},
      {GLFW_KEY_7, false, false, "7", "walk as a guest", [](Session& s) { walk_as_guest(s); }},
      {GLFW_KEY_8, false, false, "8", "walk as the animal", [](Session& s) { walk_as_animal(s); }},
      {GLFW_KEY_ENTER, false, false, "Enter", "look at what is chosen",
       [](Session& s) { look_at_chosen(s); }},
      {GLFW_KEY_C, false, false, "C", "cutting plane on or off",
       [](Session& s) {
         s.cut.on = !s.cut.on;
         s.cut.heading = s.draw.camera.heading;
         update_cut(s);
       }},
      {GLFW_KEY_G, false, false, "G", "shape the ground, or stop shaping",
       [](Session& s) { s.tool = s.tool == Tool::shape ? Tool::hand : Tool::shape; }},
      {GLFW_KEY_SPACE, false, false, "Space", "play or stop the day",
       [](Session& s) { s.time.play_day = !s.time.play_day; }},
      {GLFW_KEY_Z, true, false, "Ctrl+Z", "undo", [](Session& s) { undo(s); }},
      {GLFW_KEY_Z, true, true, "Ctrl+Shift+Z", "redo", [](Session& s) { redo(s); }},
      {GLFW_KEY_Y, true, false, "Ctrl+Y", "redo", [](Session& s) { redo(s); }},
      {GLFW_KEY_S, true, false, "Ctrl+S", "save", [](Session& s) { save(s, false); }},
      {GLFW_KEY_D, true, false, "Ctrl+D", "duplicate what is chosen",
       [](Session& s) { duplicate_chosen(s); }},
      {GLFW_KEY_DELETE, false, false, "Delete", "delete what is chosen",
       [](Session& s) { delete_chosen(s); }},
      {GLFW_KEY_P, true, false, "Ctrl+P", "save a picture",
       [](Session& s) { s.picture_open = true; }},
      {GLFW_KEY_Q, true, false, "Ctrl+Q", "leave", [](Session& s) { s.ask_quit = true; }},
      {GLFW_KEY_EQUAL, true, false, "Ctrl+=", "larger text",
       [](Session& s) {
         s.preferences.text_scale = std::min(2.5, s.preferences.text_scale + 0.1);
       }},
      {GLFW_KEY_MINUS, true, false, "Ctrl+-", "smaller text",
       [](Session& s) {
         s.preferences.text_scale = std::max(0.6, s.preferences.text_scale - 0.1);
       }},
      {GLFW_KEY_F1, false, false, "F1", "this help",
       [](Session& s) { s.help_open = !s.help_open; }},
      {GLFW_KEY_ESCAPE, false, false, "Esc", "let go; close; choose nothing", let_go_of_all}};
  return all;
}

void walk_by_arrows(Session& s) {
  const ImGuiIO& io = ImGui::GetIO();
  double ahead = 0.0;
  double aside = 0.0;
  if (ImGui::IsKeyDown(GLFW_KEY_UP)) ahead += 1.0;
  if (ImGui::IsKeyDown(GLFW_KEY_DOWN)) ahead -= 1.0;
  if (ImGui::IsKeyDown(GLFW_KEY_RIGHT)) aside += 1.0;
  if (ImGui::IsKeyDown(GLFW_KEY_LEFT)) aside -= 1.0;
  if (ahead == 0.0 && aside == 0.0) return;
  const double pace = (s.walk_as == "animal" ? 0.8 : 1.4) * std::min(0.1, double(io.DeltaTime));
  walk(s, ahead * pace, aside * pace);
}

}  // namespace

const std::vector<KeyHelp>& mouse_help() {
  static const std::vector<KeyHelp> all{
      {"drag the ground or sky", "look round, about the place you took hold of"},
      {"drag with the right button", "slide the view"},
      {"wheel", "nearer and farther, towards the pointer"},
      {"click a thing", "choose it"},
      {"drag a thing", "move it over the ground, with answers as it goes"},
      {"Shift and drag a thing", "lift it off the ground"},
      {"drag the small knob", "turn what is chosen"},
      {"click a fence, drag a corner", "move a corner post of the fence"},
      {"double-click", "look at what is under the pointer"}};
  return all;
}

std::vector<KeyHelp> key_help() {
  std::vector<KeyHelp> out;
  for (const Key& k : keys()) out.push_back({k.keys, k.does});
  out.push_back({"arrows", "walk; or move what is chosen by 5 cm"});
  return out;
}

bool walking_by_key(const Session& s) {
  if (!s.walk_height || ImGui::GetIO().WantTextInput) return false;
  for (const int k : {GLFW_KEY_UP, GLFW_KEY_DOWN, GLFW_KEY_LEFT, GLFW_KEY_RIGHT})
    if (ImGui::IsKeyDown(k)) return true;
  return false;
}

void use_keys(Session& s) {
  const ImGuiIO& io = ImGui::GetIO();
  if (io.WantTextInput) return;
  for (const Key& k : keys())
    if (ImGui::IsKeyPressed(k.code, false) && io.KeyCtrl == k.control &&
        (io.KeyShift == k.shift || !k.control))
      k.act(s);
  if (s.walk_height) {
    walk_by_arrows(s);
    return;
  }
  constexpr double kNudge = 0.05;
  if (ImGui::IsKeyPressed(GLFW_KEY_UP)) nudge(s, {0.0, kNudge});
  if (ImGui::IsKeyPressed(GLFW_KEY_DOWN)) nudge(s, {0.0, -kNudge});
  if (ImGui::IsKeyPressed(GLFW_KEY_LEFT)) nudge(s, {-kNudge, 0.0});
  if (ImGui::IsKeyPressed(GLFW_KEY_RIGHT)) nudge(s, {kNudge, 0.0});
}

void save(Session& s, bool over_changes) {
  try {
    if (s.document.save(over_changes) == Saved::changed_on_disk) {
      s.disk_changed = true;
      return;
    }
    s.disk_changed = false;
    tell(s, "Saved");
  } catch (const std::exception& error) {
    tell(s, std::string("Not saved: ") + error.what());
  }
}

}  // namespace hummock::viewer
