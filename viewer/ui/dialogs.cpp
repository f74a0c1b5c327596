// Help, about, pictures, and the questions that must be answered: unsaved work, a file changed by
// someone else, leaving.
#include <cstdio>
#include <string>

#include "engine/check/findings.h"
#include "viewer/app/tools/keys.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

void centre_next(const Layout& l, float width) {
  ImGui::SetNextWindowPos({l.screen.x / 2.0F, l.screen.y / 2.0F}, ImGuiCond_Always, {0.5F, 0.5F});
  ImGui::SetNextWindowSize({std::min(width, l.screen.x - 20.0F), 0.0F});
}

bool begin_question(const char* title, const Layout& l) {
  ImGui::OpenPopup(title);
  centre_next(l, ImGui::GetFontSize() * 30.0F);
  return ImGui::BeginPopupModal(
      title, nullptr,
      ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
}

bool answer(Session& s, const char* label, const char* name) {
  const bool pressed = ImGui::Button(label);
  mark_item(s, name);
  ImGui::SameLine();
  if (pressed) ImGui::CloseCurrentPopup();
  return pressed;
}

void paragraph(const char* words) {
  ImGui::PushTextWrapPos(0.0F);
  ImGui::TextUnformatted(words);
  ImGui::PopTextWrapPos();
}

void recovery_question(Session& s, const Layout& l) {
  if (!begin_question("Unsaved work was found", l)) return;
  paragraph(
      "The program stopped before your last changes to this site were saved. They were kept.");
  if (s.recovery_of_other)
    toned(tone::tight(), "▼ The file has been changed by someone else since.");
  ImGui::Spacing();
  if (answer(s, "Take them back", "recover")) {
    s.document.take_recovered();
    s.offer_recovery = false;
    tell(s, "Taken back; not saved yet");
    restudy(s);
  }
  tip("Undo brings back the file as it is on disk");
  if (answer(s, "Leave them", "leave recovery")) {
    s.document.forget_recovered();
    s.offer_recovery = false;
  }
  ImGui::EndPopup();
}

void disk_question(Session& s, const Layout& l) {
  if (!begin_question("The file has been changed by someone else", l)) return;
  paragraph(
      s.document.dirty()
          ? "The site file on disk is no longer the one you began with, and you have changes of "
            "your own. Nothing has been overwritten."
          : "The site file on disk is no longer the one you see.");
  ImGui::Spacing();
  if (answer(s, "Take the file", "take file")) {
    s.document.take_from_disk();
    s.disk_changed = false;
    restudy(s);
  }
  tip("Undo brings back yours");
  if (answer(s, "Keep mine", "keep mine")) {
    s.document.note_disk();
    s.disk_changed = false;
    tell(s, "Yours is kept; Save will now replace the file");
  }
  tip("The file stays as it is until you save");
  if (answer(s, "Save mine under another name", "save copy")) {
    const auto file = s.document.file();
    const auto copy = file.parent_path() / ("mine-" + file.filename().string());
    try {
      s.document.save_copy(copy);
      tell(s, "Yours is saved as " + copy.filename().string());
      s.document.take_from_disk();
      s.disk_changed = false;
      restudy(s);
    } catch (const std::exception& error) {
      tell(s, std::string("Not saved: ") + error.what());
    }
  }
  ImGui::NewLine();
  ImGui::EndPopup();
}

void quit_question(Session& s, const Layout& l) {
  if (!s.document.dirty()) {
    s.quit = true;
    return;
  }
  if (!begin_question("Leave without saving?", l)) return;
  paragraph("There are changes that are not saved.");
  ImGui::Spacing();
  if (answer(s, "Save and leave", "save and leave")) {
    s.ask_quit = false;
    save(s, false);
    s.quit = !s.document.dirty();
  }
  if (answer(s, "Leave, drop the changes", "drop and leave")) {
    s.document.forget_recovered();
    s.quit = true;
  }
  if (answer(s, "Stay", "stay")) s.ask_quit = false;
  ImGui::NewLine();
  ImGui::EndPopup();
}

void two_columns(const char* id, const std::vector<KeyHelp>& list) {
  if (!ImGui::BeginTable(id, 2)) return;
  ImGui::TableSetupColumn("keys", ImGuiTableColumnFlags_WidthStretch, 0.44F);
  ImGui::TableSetupColumn("does", ImGuiTableColumnFlags_WidthStretch, 0.56F);
  for (const KeyHelp& k : list) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    toned(tone::accent(), k.keys.c_str());
    ImGui::TableNextColumn();
    paragraph(k.does.c_str());
  }
  ImGui::EndTable();
}

void help(Session& s, const Layout& l) {
  centre_next(l, ImGui::GetFontSize() * 54.0F);
  ImGui::Begin(
      "Mouse and keys", &s.help_open,
      ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoSavedSettings);
  if (ImGui::BeginTable("help", 2)) {
    ImGui::TableNextColumn();
    heading("Mouse");
    two_columns("mouse", mouse_help());
    heading("In the panels");
    soft_text(
        "Numbers: drag sideways, or double-click and type. Click a finding to fly there and see "
        "it drawn. Every figure says whether it is current.");
    if (ImGui::Button("Show the first hints again")) s.preferences.hints_seen = false;
    ImGui::TableNextColumn();
    heading("Keys");
    two_columns("keys", key_help());
    ImGui::EndTable();
  }
  ImGui::End();
}

void about(Session& s, const Layout& l) {
  centre_next(l, ImGui::GetFontSize() * 36.0F);
  ImGui::Begin(
      "What these figures are", &s.about_open,
      ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoSavedSettings);
  for (const std::string& line : cautions()) {
    paragraph(line.c_str());
    ImGui::Spacing();
  }
  soft_text(
      "The light and shadow in the view are for the eye. Figures of shade come from the check.");
  ImGui::End();
}

void picture(Session& s, const Layout& l) {
  centre_next(l, ImGui::GetFontSize() * 28.0F);
  ImGui::Begin(
      "Save a picture", &s.picture_open,
      ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoSavedSettings);
  if (s.picture_file.empty())
    s.picture_file =
        (s.document.file().parent_path() / (s.document.file().stem().stem().string() + ".png"))
            .string();
  char text[512];
  std::snprintf(text, sizeof text, "%s", s.picture_file.c_str());
  ImGui::SetNextItemWidth(-1.0F);
  if (ImGui::InputText("##file", text, sizeof text)) s.picture_file = text;
  ImGui::InputInt2("pixels, wide and high", s.picture_size);
  s.picture_size[0] = std::clamp(s.picture_size[0], 16, 8192);
  s.picture_size[1] = std::clamp(s.picture_size[1], 16, 8192);
  if (ImGui::Button("Save the picture")) {
    s.save_picture_now = s.picture_file;
    s.picture_open = false;
  }
  mark_item(s, "save picture");
  ImGui::End();
}

}  // namespace

void dialogs(Session& s, const Layout& l) {
  if (s.offer_recovery)
    recovery_question(s, l);
  else if (s.disk_changed)
    disk_question(s, l);
  else if (s.ask_quit)
    quit_question(s, l);
  if (s.help_open) help(s, l);
  if (s.about_open) about(s, l);
  if (s.picture_open) picture(s, l);
}

void first_hints(Session& s, const Layout& l) {
  if (s.preferences.hints_seen || s.help_open || s.shown.model == nullptr) return;
  const float em = ImGui::GetFontSize();
  ImGui::SetNextWindowPos(
      {l.scene_at.x + l.scene_size.x / 2.0F, l.scene_at.y + l.scene_size.y - em}, ImGuiCond_Always,
      {0.5F, 1.0F});
  ImGui::SetNextWindowSize({std::min(em * 30.0F, l.scene_size.x - 2.0F * em), 0.0F});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 5.0F);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1.0F);
  ImGui::Begin("hints", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoFocusOnAppearing);
  toned(tone::accent(), "To begin with");
  paragraph("Drag the ground to look round, the wheel to come nearer.");
  paragraph("Drag a stone: it moves over the ground and tells what that does to the fence.");
  paragraph("Click a finding on the left to fly there and see it drawn.");
  if (ImGui::Button("Good")) s.preferences.hints_seen = true;
  mark_item(s, "hints good");
  ImGui::SameLine();
  soft_text("F1 has the rest");
  ImGui::End();
  ImGui::PopStyleVar(2);
}

}  // namespace hummock::viewer
