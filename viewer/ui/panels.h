// The panels round the scene and what is written over it.
#pragma once

#include <imgui.h>

#include "engine/grammar/row.h"
#include "viewer/app/session.h"
#include "viewer/app/tools/pointer.h"

namespace hummock::viewer {

// Where everything goes this frame, in ImGui's units.
struct Layout {
  ImVec2 screen;
  float top = 0.0F;     // height of the bar above
  float status = 0.0F;  // height of the line below
  float time = 0.0F;    // height of the time bar
  float left = 0.0F;    // widths of the side panels; 0 = closed
  float right = 0.0F;
  ImVec2 scene_at;
  ImVec2 scene_size;
};
Layout lay_out(const Session& session);

// One frame of everything: panels, scene overlay, dialogs; then pointer and keys. Call between
// ImGui::NewFrame and ImGui::Render.
void draw_interface(Session& session, const Layout& layout);

void top_bar(Session& session, const Layout& layout);
void findings_panel(Session& session, const Layout& layout);
void side_panel(Session& session, const Layout& layout);
void thing_section(Session& session);
void map_section(Session& session);
void shape_section(Session& session);
void picture_section(Session& session);
void time_bar(Session& session, const Layout& layout);
void status_line(Session& session, const Layout& layout);
// Labels, handles, legend, north, scale bar.
void scene_overlay(Session& session, const Layout& layout);
void dialogs(Session& session, const Layout& layout);
void first_hints(Session& session, const Layout& layout);

// Small pieces.
// Notes where the last item is, for the state file and the tests that read it.
void mark_item(Session& session, const char* name);
// A tip on the last item.
void tip(const char* words);
// Text in a tone.
void toned(Colour colour, const char* words);
void soft_text(const char* words);
// A heading with a line under it.
void heading(const char* words);
// A button that stays pressed while `on`.
bool toggle_button(const char* label, bool on);

// What was done in the fields of a table.
struct RowsEdit {
  bool moving = false;   // a value changed this frame
  bool done = false;     // let go, or typed in
  std::string take_out;  // a key to take out of the file …
  std::string table;     // … of the table at this path
};
// A field for every key of `thing`, a table's T, that means something; edits it in place. `path` is
// its place in the file ("object[3]"), `name` begins the fields' marks ("object height").
RowsEdit row_fields(Session& session, const grammar::Table& table, void* thing,
                    const std::string& path, const std::string& name);
// Gives what a new table needs plain measures.
void begin_with(const grammar::Table& table, void* thing);

struct Field {
  bool moving = false;  // the value changed this frame
  bool done = false;    // let go or typed in
};
// A number one can drag, or double-click to type.
Field number_field(Session& session, const char* label, double* value, float speed, double least,
                   double most, const char* format, const char* name);

}  // namespace hummock::viewer
