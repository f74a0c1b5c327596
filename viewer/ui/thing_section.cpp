// What is chosen: its measures as numbers, its answers, adding, duplicating, deleting.
#include <cstdio>
#include <string>

#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"
#include "viewer/app/tools/editing.h"
#include "viewer/scene/tone.h"
#include "viewer/ui/panels.h"
#include "viewer/ui/style.h"

namespace hummock::viewer {
namespace {

std::string words(const char* format, double v) {
  char text[96];
  std::snprintf(text, sizeof text, format, v);
  return text;
}

// A figure and what it is, right-aligned figure.
void figure(const char* what, const std::string& value, Colour colour, const char* more) {
  const float width = ImGui::GetContentRegionAvail().x;
  ImGui::TextUnformatted(what);
  tip(more);
  ImGui::SameLine(std::max(0.0F, width - ImGui::CalcTextSize(value.c_str()).x));
  toned(colour, value.c_str());
  tip(more);
}

const char* verdict_words(leap::Verdict verdict) {
  switch (verdict) {
    case leap::Verdict::a_way_out:
      return "▲ a way out";
    case leap::Verdict::tight:
      return "▼ tight";
    case leap::Verdict::clear:
      return "✓ clear for these figures";
    case leap::Verdict::cannot_be_reached:
      break;
  }
  return "○ cannot be gained";
}

void boundary_answers(const leap::ObjectRow& r) {
  figure("Gained with a leap of", words("%.2f m", r.required_leap_m), tone::ink(),
         "Least leap height that gets the animal onto it");
  figure("Effort to the fence",
         r.effort_to_boundary_m ? words("%.2f m", *r.effort_to_boundary_m) : "beyond the limit",
         tone::ink(), "Least leap height that gets it from here over the boundary");
  figure("Clears the fence by", words("%.2f m", r.boundary_clearance_m), verdict_colour(r.verdict),
         "Least distance between its full leap and the barrier's top; negative: it gets over");
  if (r.move_m && *r.move_m > 0.0)
    figure("Move it inwards", words("%.2f m", *r.move_m), tone::ink(), "Least shift to be clear");
  if (r.lower_m && *r.lower_m > 0.0)
    figure("or lower it", words("%.2f m", *r.lower_m), tone::ink(), "Least lowering to be clear");
}

// The least cap under the top's place; from the cap layer when it is on the scene.
void cap_answer(Session& s, const leap::ObjectRow& r) {
  const auto cap = s.study.cap_at(geom::xy(r.top));
  if (!cap) return;
  const double room = *cap - r.top.z;
  figure("Height cap here", words("%.2f m", *cap), tone::ink(),
         "Tallest that anything may stand at its top, above datum");
  figure("Room below the cap", words("%+.2f m", room), room < 0.0 ? tone::short_of() : tone::met(),
         "Cap less the height of its top");
}

void answers(Session& s) {
  const leap::Result* leap = leap_result(s);
  if (leap == nullptr) return;
  heading("What the check says of it");
  const bool live = leap_is_live(s);
  if (live)
    toned(tone::accent(),
          words("● live, answered in %.0f ms", s.study.live()->seconds * 1e3).c_str());
  else if (s.study.figures_current())
    toned(tone::met(), "● current");
  else
    toned(tone::tight(), "◐ of before the change");
  if (const leap::ObjectRow* r = leap_row(s, s.chosen.index)) {
    toned(verdict_colour(r->verdict), verdict_words(r->verdict));
    boundary_answers(*r);
    cap_answer(s, *r);
  }
  figure("Escape margin of the yard",
         leap->escape_leap_m ? words("%.2f", leap->margin) : words("over %.2f", leap->margin),
         leap->margin < 1.0 ? tone::short_of() : tone::met(),
         "Escape demand over leap height; below 1 an animal of these figures gets out");
}

void object_fields(Session& s, Object o) {
  const int index = s.chosen.index;
  bool moving = false;
  bool done = false;
  const auto add = [&](Field f) {
    moving = moving || f.moving;
    done = done || f.done;
  };
  add(number_field(s, "x", &o.at.x, 0.02F, -1e6, 1e6, "%.2f m", "object x"));
  add(number_field(s, "y", &o.at.y, 0.02F, -1e6, 1e6, "%.2f m", "object y"));
  add(number_field(s, "Lift", &o.z, 0.01F, -50.0, 100.0, "%.2f m", "object z"));
  double turn = o.turn / geom::kDegree;
  double lean = o.lean / geom::kDegree;
  add(number_field(s, "Turn", &turn, 1.0F, -360.0, 360.0, "%.0f°", "object turn"));
  add(number_field(s, "Lean", &lean, 0.5F, -90.0, 90.0, "%.0f°", "object lean"));
  o.turn = turn * geom::kDegree;
  o.lean = lean * geom::kDegree;
  if (o.kind == ObjectKind::tree) {
    add(number_field(s, "Trunk, across", &o.trunk_diameter, 0.01F, 0.01, 10.0, "%.2f m",
                     "trunk d"));
    add(number_field(s, "Trunk, high", &o.trunk_height, 0.02F, 0.05, 60.0, "%.2f m", "trunk h"));
    if (o.crown) {
      add(number_field(s, "Crown, x", &o.crown->size.x, 0.02F, 0.05, 60.0, "%.2f m", "crown x"));
      add(number_field(s, "Crown, y", &o.crown->size.y, 0.02F, 0.05, 60.0, "%.2f m", "crown y"));
      add(number_field(s, "Crown, high", &o.crown->size.z, 0.02F, 0.05, 60.0, "%.2f m", "crown z"));
      add(number_field(s, "Crown from", &o.crown->base, 0.02F, 0.0, 60.0, "%.2f m", "crown base"));
    }
  } else if (o.kind == ObjectKind::mesh) {
    add(number_field(s, "Scale", &o.scale, 0.01F, 1e-6, 1e6, "%.3f", "object scale"));
  } else {
    add(number_field(s, "Length", &o.size.x, 0.01F, 0.02, 200.0, "%.2f m", "object length"));
    add(number_field(s, "Width", &o.size.y, 0.01F, 0.02, 200.0, "%.2f m", "object width"));
    add(number_field(s, "Height", &o.size.z, 0.01F, 0.02, 200.0, "%.2f m", "object height"));
  }
  if (done)
    commit_object(s, index, o, "change " + o.name);
  else if (moving)
    propose_object(s, index, o);
}

void object_editor(Session& s, const Object& o) {
  ImGui::PushFont(large_font());
  ImGui::TextUnformatted(o.name.c_str());
  ImGui::PopFont();
  object_fields(s, o);
  bool climbable = o.climbable;
  if (ImGui::Checkbox("can be scrambled up", &climbable)) {
    Object changed = o;
    changed.climbable = climbable;
    commit_object(s, s.chosen.index, changed, "change " + o.name);
  }
  tip("At any slope, whatever the species climbs");
  if (ImGui::Button("Duplicate")) duplicate_chosen(s);
  mark_item(s, "duplicate");
  ImGui::SameLine();
  if (ImGui::Button("Delete")) delete_chosen(s);
  mark_item(s, "delete");
  ImGui::SameLine();
  if (ImGui::Button("Look")) look_at_chosen(s);
  tip("Fly to it (Enter)");
  answers(s);
}

void overhang_fields(Session& s, Section& value, bool& moving, bool& done) {
  bool has = value.overhang.has_value();
  if (ImGui::Checkbox("overhang, inwards", &has)) {
    value.overhang = has ? std::optional(Overhang{0.6, 30.0 * geom::kDegree}) : std::nullopt;
    commit_section(s, s.chosen.index, value, "change " + value.name);
    return;
  }
  mark_item(s, "section overhang");
  if (!value.overhang) return;
  double angle = value.overhang->angle / geom::kDegree;
  const Field a = number_field(s, "Overhang, long", &value.overhang->length, 0.01F, 0.05, 5.0,
                               "%.2f m", "overhang length");
  const Field b =
      number_field(s, "Overhang, up", &angle, 0.5F, -60.0, 89.0, "%.0f°", "overhang angle");
  value.overhang->angle = angle * geom::kDegree;
  moving = moving || a.moving || b.moving;
  done = done || a.done || b.done;
}

void section_editor(Session& s) {
  if (s.chosen.index >= static_cast<int>(s.site->boundary.sections.size())) return;
  Section value = s.section_in_hand
                      ? *s.section_in_hand
                      : s.site->boundary.sections[static_cast<std::size_t>(s.chosen.index)];
  ImGui::PushFont(large_font());
  ImGui::TextUnformatted(value.name.c_str());
  ImGui::PopFont();
  soft_text("Fence. Drag its corner posts in the view, or type here.");
  bool moving = false;
  bool done = false;
  const auto add = [&](Field f) {
    moving = moving || f.moving;
    done = done || f.done;
  };
  add(number_field(s, "Height", &value.height, 0.01F, 0.1, 30.0, "%.2f m", "section height"));
  add(number_field(s, "Between posts", &value.panel, 0.05F, 0.1, 50.0, "%.2f m", "section panel"));
  add(number_field(s, "Buried", &value.buried, 0.01F, 0.0, 10.0, "%.2f m", "section buried"));
  if (value.kind == SheetKind::mesh)
    add(number_field(s, "Mesh opening", &value.aperture, 0.001F, 0.001, 1.0, "%.3f m",
                     "section aperture"));
  overhang_fields(s, value, moving, done);
  if (done) {
    s.section_in_hand.reset();
    commit_section(s, s.chosen.index, value, "change " + value.name);
  } else if (moving) {
    s.section_in_hand = value;
    propose_section(s, s.chosen.index, value);
  }
  if (const leap::Result* leap = leap_result(s))
    figure("Escape margin of the yard",
           leap->escape_leap_m ? words("%.2f", leap->margin) : words("over %.2f", leap->margin),
           leap->margin < 1.0 ? tone::short_of() : tone::met(), "Escape demand over leap height");
}

void corner_fields(Session& s) {
  if (!ImGui::TreeNode("Corner posts")) return;
  const auto& outline = s.site->boundary.outline;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    ImGui::PushID(static_cast<int>(k));
    double xy[2] = {outline[k].x, outline[k].y};
    ImGui::SetNextItemWidth(-1.0F);
    if (ImGui::InputScalarN("##corner", ImGuiDataType_Double, xy, 2, nullptr, nullptr, "%.3f",
                            ImGuiInputTextFlags_EnterReturnsTrue))
      commit_corner(s, static_cast<int>(k), {xy[0], xy[1]});
    tip("x and y of this corner; Enter takes them");
    ImGui::PopID();
  }
  ImGui::TreePop();
}

void roof_fields(Session& s) {
  if (!s.site->roof) return;
  heading("Roof");
  Roof value = s.roof_in_hand ? *s.roof_in_hand : *s.site->roof;
  Field a;
  if (value.height)
    a = number_field(s, "Height, datum", &*value.height, 0.02F, -500.0, 9100.0, "%.2f m",
                     "roof height");
  else if (value.above_fence)
    a = number_field(s, "Above the fence", &*value.above_fence, 0.02F, 0.0, 30.0, "%.2f m",
                     "roof above");
  const Field b = number_field(s, "Sag", &value.sag, 0.01F, 0.0, 5.0, "%.2f m", "roof sag");
  if (a.moving || b.moving) s.roof_in_hand = value;
  if (a.done || b.done) {
    s.roof_in_hand.reset();
    commit_roof(s, value, "change the roof");
  }
}

void add_list(Session& s) {
  heading("Add");
  int column = 0;
  for (const std::string& kind : addable_kinds()) {
    if (column++ % 3 != 0) ImGui::SameLine();
    if (ImGui::Button(kind.c_str())) add_object(s, kind);
    mark_item(s, ("add " + kind).c_str());
    tip("Put one in the middle of the view, then drag it where it belongs");
  }
}

}  // namespace

void thing_section(Session& s) {
  if (!s.site) return;
  if (const auto object = chosen_object(s)) {
    object_editor(s, *object);
  } else if (s.chosen.kind == Chosen::Kind::section) {
    section_editor(s);
    corner_fields(s);
  } else if (s.chosen.kind == Chosen::Kind::part && model(s) != nullptr &&
             s.chosen.index < static_cast<int>(model(s)->parts.size())) {
    const Part& part = model(s)->parts[static_cast<std::size_t>(s.chosen.index)];
    ImGui::PushFont(large_font());
    ImGui::TextUnformatted(part.name.c_str());
    ImGui::PopFont();
    soft_text((std::string(to_string(part.kind)) + ". Its measures are in the site file.").c_str());
  } else {
    soft_text("Click a thing in the view to choose it; drag it to move it.");
    roof_fields(s);
  }
  add_list(s);
}

}  // namespace hummock::viewer
