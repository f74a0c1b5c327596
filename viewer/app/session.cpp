#include "viewer/app/session.h"

#include "engine/base/input_error.h"
#include "engine/site/read_site.h"
#include "viewer/app/show/day.h"
#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"
#include "viewer/app/tools/editing.h"

namespace hummock::viewer {
namespace {

void show_built(Session& s, const Built& built) {
  const bool first = s.shown.model == nullptr;
  s.shown = built;
  s.picker = built.picker;
  if (s.renderer) {
    s.renderer->set_scene(built.scene, built.model);
    // What stays as it was keeps its corner shade until the new one is worked out.
    if (s.corner_shade) s.renderer->set_corner_shade(*s.corner_shade);
  }
  s.draw.camera.reach =
      std::max(5.0, geom::distance(built.scene->box.lo, built.scene->box.hi) / 2.0);
  if (first && s.first_view) look_at_whole(s, false);
  if (s.pose && s.pose->revision != 0 && built.revision >= s.pose->revision) s.pose.reset();
  if (s.await_choice && built.revision == s.document.revision()) s.await_choice = false;
  if (s.chosen.kind == Chosen::Kind::object && !s.await_choice &&
      s.chosen.index >= static_cast<int>(built.model->site.objects.size()))
    s.chosen = {};
  if (s.chosen.kind == Chosen::Kind::section &&
      s.chosen.index >= static_cast<int>(built.model->site.boundary.sections.size()))
    s.chosen = {};
  if (s.chosen.kind == Chosen::Kind::part) s.chosen = {};
  s.pointed_part = -1;
  if (s.walk_height) keep_on_ground(s);
  update_sun(s);
  update_moved(s);
  update_cut(s);
  update_marks(s);
  s.redraw = true;
}

}  // namespace

void begin(Session& s) {
  s.study.on_built = [&s](const Built& built) { show_built(s, built); };
  s.study.on_corner_shade = [&s](std::shared_ptr<const Scene> scene) {
    if (!s.renderer || !s.preferences.corner_shade) return;
    s.renderer->set_corner_shade(*scene);
    s.corner_shade = std::move(scene);
    s.redraw = true;
  };
  s.study.on_judged = [&s] {
    find_again(s);
    update_marks(s);
    s.redraw = true;
  };
  s.study.on_painted = [&s] {
    show_layer(s);
    s.redraw = true;
  };
  s.study.on_live = [&s] {
    update_marks(s);
    s.redraw = true;
  };
  s.study.on_live_built = [&s](const Built& built) { show_built(s, built); };
  s.offer_recovery = s.document.recoverable().has_value();
  s.recovery_of_other = s.offer_recovery && s.document.recoverable_is_of_another_text();
  s.draw.grid = s.preferences.grid;
  s.draw.contour = s.preferences.contour;
  s.draw.shadows = s.preferences.shadows;
  restudy(s);
}

void restudy(Session& s) {
  s.study.end_proposals();
  s.asked_key.clear();
  s.day_key.clear();
  s.ask_at = s.now + 0.1;
  try {
    s.site = std::make_shared<const Site>(read_site_text(s.document.text(), s.document.file()));
    s.study.show(s.document.revision(), s.site, check_options(s));
  } catch (const std::exception& error) {
    s.study.cannot_read(s.document.revision(), error.what());
  }
}

bool commit(Session& s, const std::string& text, const std::string& what,
            const std::string& gesture) {
  try {
    read_site_text(text, s.document.file());
  } catch (const InputError& error) {
    s.pose.reset();
    tell(s,
         "Not done: " + error.where().key + ": " + error.found() + "; allowed: " + error.allowed());
    restudy(s);
    return false;
  }
  s.document.change(text, what, gesture);
  if (s.pose) s.pose->revision = s.document.revision();
  restudy(s);
  return true;
}

void undo(Session& s) {
  if (!s.document.can_undo()) return;
  const std::string what = s.document.undo_name();
  s.document.undo();
  s.pose.reset();
  tell(s, "Undone: " + what);
  restudy(s);
}

void redo(Session& s) {
  if (!s.document.can_redo()) return;
  s.document.redo();
  s.pose.reset();
  tell(s, "Done again: " + s.document.undo_name());
  restudy(s);
}

void tell(Session& s, const std::string& note) {
  s.note = note;
  s.note_until = s.now + 6.0;
}

CheckOptions check_options(const Session& s) {
  (void)s;
  return {};
}

const Model* model(const Session& s) {
  return s.shown.model.get();
}

}  // namespace hummock::viewer
