// Everything the viewer holds while a site is open. Plain data; the functions that act on it live
// in the files named after what they do (views, pointer, editing, layers, day, marks).
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/app/start/preferences.h"
#include "viewer/document/document.h"
#include "viewer/draw/renderer.h"
#include "viewer/scene/camera.h"
#include "viewer/scene/picking.h"
#include "viewer/work/study.h"

namespace hummock::viewer {

// What is chosen. An object by its place in the site file's list; a fence section; or any part.
struct Chosen {
  enum class Kind { nothing, object, section, part } kind = Kind::nothing;
  int index = -1;  // object or section; part: into Model::parts
  friend bool operator==(const Chosen&, const Chosen&) = default;
};

enum class Tool { hand, shape };
enum class StrokeKind { raise, lower, smooth, flatten };

struct Brush {
  StrokeKind kind = StrokeKind::raise;
  double radius = 1.0;     // m
  double strength = 0.2;   // m raised or lowered; share of the way for smooth and flatten is whole
  std::vector<Vec2> path;  // of the stroke in hand, local
  double level = 0.0;      // flatten: the ground where the stroke began
};

struct DayTime {
  int year = 2026;
  int day = 172;       // of the year, 1..365 (366)
  double hour = 12.0;  // clock of the place
  bool play_day = false;
  bool play_year = false;
  double day_run = 0.0;  // part of a day gone by while playing the year
};

struct Cut {
  bool on = false;
  double heading = 0.0;  // rad, the way the cut looks: what lies nearer is taken away
  double at = 0.0;       // m along the heading from the yard's middle
};

struct Flight {
  Camera from, to;
  double start = 0.0;
  double length = 0.5;  // s
};

// What the pointer is doing in the view.
struct Hold {
  enum class Kind { nothing, look, pan, object, turn, corner, shape } kind = Kind::nothing;
  Vec2 pressed;  // pixel where it began
  Vec2 last;
  Vec3 grabbed;        // point held, local
  bool moved = false;  // farther than a click
  bool lift = false;   // up and down instead of along the ground
  Object before;       // as it was
  Vec2 corner_before;
  double angle = 0.0;
};

// An edit under way or not yet built: the object as it should be drawn.
struct Pose {
  int object = -1;
  Object value;                // site coordinates
  std::uint64_t revision = 0;  // 0: still in hand; else drop it when this revision is built
};

struct Label {  // words at a place in the scene
  Vec3 at;
  std::string text;
  Colour colour;
};

// A finding or a row of the brief that was chosen.
struct ShownFinding {
  int finding = -1;
  int row = -1;
  std::string key;  // of the finding: it may stand elsewhere in the list after a change
};

// In the order of what belongs together, not of size: there is one.
struct Session {  // NOLINT(clang-analyzer-optin.performance.Padding)
  explicit Session(const std::filesystem::path& file) : document(file) {}
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  Preferences preferences;
  Document document;
  // The document as read, in its own coordinates; the one before while the text cannot be read.
  std::shared_ptr<const Site> site;

  // Drawing.
  std::unique_ptr<Renderer> renderer;
  FrameTarget target;
  DrawSettings draw;
  View view;    // of the scene, pixels
  Built shown;  // what is on the screen
  std::shared_ptr<const Picker> picker;
  std::shared_ptr<const Scene> corner_shade;  // the last scene that had it
  bool redraw = true;
  bool moving = false;       // draw coarse
  double still_since = 0.0;  // s
  std::optional<Flight> flight;
  Cut cut;
  std::optional<double> walk_height;  // m, while walking
  std::string walk_as;                // "guest" | "animal"
  bool first_view = true;

  // Work.
  DayTime time;
  std::string layer;      // "" = none
  std::string asked_key;  // of the layer last asked for
  std::string day_key;    // of the shade curve last asked for
  double ask_at = 0.0;    // s: when to ask, so that a slider in motion does not flood
  Chosen chosen;
  bool await_choice = false;  // what is chosen is not built yet
  ShownFinding finding;
  Tool tool = Tool::hand;
  Brush brush;
  Hold hold;
  std::optional<Pose> pose;
  std::shared_ptr<Site> in_hand;                // as it is while a number of it is dragged
  std::map<std::string, std::string> refusals;  // field → what the reader says of what was typed
  std::vector<Label> labels;
  std::optional<Vec3> under_pointer;  // on the ground or a thing
  std::int32_t pointed_part = -1;
  double pressed_at = 0.0;

  // Panels.
  bool help_open = false;
  bool about_open = false;
  bool picture_open = false;
  bool disk_changed = false;
  bool ask_quit = false;
  bool quit = false;
  bool offer_recovery = false;
  bool recovery_of_other = false;
  bool ask_overwrite = false;
  double looked_at_disk = 0.0;
  std::string note;  // a line for the user, e.g. why an edit was refused
  double note_until = 0.0;
  std::string picture_file;
  int picture_size[2] = {1920, 1200};
  bool picture_panels = false;
  std::optional<std::string> save_picture_now;
  std::map<std::string, Vec2> widgets;  // where each named widget is, ImGui units; for tests
  double now = 0.0;                     // s, of this frame
  double ui_scale = 1.0;
  double fine_seconds = 0.0;  // what the last whole picture took
  bool drawn_coarse = false;
  unsigned frame = 0;

  // Last, so that its threads end before what they report to.
  Inbox inbox;
  Study study{inbox};
};

// Reads nothing yet: sets up answers' ways and asks for the first model.
void begin(Session& session);
// Asks the engine about the document as it is now.
void restudy(Session& session);
// A finished change of the text: undo step, recovery copy, new study. A text the reader refuses is
// refused here: the document stays as it was and the reason is shown. True when taken.
bool commit(Session& session, const std::string& text, const std::string& what,
            const std::string& gesture = "");
void undo(Session& session);
void redo(Session& session);
void tell(Session& session, const std::string& note);
CheckOptions check_options(const Session& session);

const Model* model(const Session& session);

}  // namespace hummock::viewer
