// What is chosen: its fields, made from the grammar, its answers, adding, duplicating, deleting.
#include <cmath>
#include <cstdio>
#include <string>

#include "engine/grammar/tables.h"
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

std::string move_words(double metres, Vec2 towards) {
  const double bearing = std::fmod(std::atan2(towards.x, towards.y) / geom::kDegree + 360.0, 360.0);
  return words("%.2f m", metres) + words(" towards %.0f°", bearing);
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
    figure("Move it", move_words(*r.move_m, r.move_towards), tone::ink(),
           "Least shift to be clear, by the plan's bearing: 0° is up the plan, 90° to its right");
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
  const std::string path = "object[" + std::to_string(index) + "]";
  const RowsEdit edit = row_fields(s, grammar::object_table(), &o, path, "object");
  if (!edit.take_out.empty())
    take_out_key(s, edit.table, edit.take_out);
  else if (edit.done)
    commit_object(s, index, o, "change " + o.name);
  else if (edit.moving)
    propose_object(s, index, o);
}

void large(const std::string& words) {
  ImGui::PushFont(large_font());
  ImGui::TextUnformatted(words.c_str());
  ImGui::PopFont();
}

void object_editor(Session& s, const Object& o) {
  large(o.name);
  object_fields(s, o);
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

// A table of the site anywhere in it: its fields work on a copy of the whole site.
struct InSite {
  const grammar::Table* table = nullptr;
  std::string path;
  std::string name;  // of the kind, for the fields' marks
};

void* thing_at(const grammar::Table& table, void* thing, const std::string& path,
               const std::string& wanted) {
  for (const grammar::Row& row : table.rows) {
    if (!grammar::has_table(row)) continue;
    const std::string inner = path.empty() ? row.key : path + "." + row.key;
    for (std::size_t i = 0; i < row.children.count(thing); ++i) {
      const bool list = row.kind == grammar::Kind::tables;
      const std::string at = list ? inner + "[" + std::to_string(i) + "]" : inner;
      void* child = row.children.at(thing, i);
      if (at == wanted) return child;
      if (wanted.rfind(at, 0) != 0) continue;
      if (void* found = thing_at(row.table(), child, at, wanted)) return found;
    }
  }
  return nullptr;
}

void site_table_fields(Session& s, const InSite& in) {
  Site value = s.in_hand ? *s.in_hand : *s.site;
  void* thing = thing_at(grammar::site_table(), &value, "", in.path);
  if (thing == nullptr) return;
  const RowsEdit edit = row_fields(s, *in.table, thing, in.path, in.name);
  if (!edit.take_out.empty())
    take_out_key(s, edit.table, edit.take_out);
  else if (edit.done)
    commit_site(s, value, "change " + in.path);
  else if (edit.moving)
    propose_site(s, value);
}

// The thing of that name in a list, of the site or of its boundary. Names are unique.
InSite find_named(const grammar::Table& table, void* thing, const std::string& path,
                  const std::string& name) {
  for (const grammar::Row& row : table.rows) {
    if (!grammar::has_table(row)) continue;
    const std::string inner = path.empty() ? row.key : path + "." + row.key;
    const bool list = row.kind == grammar::Kind::tables;
    for (std::size_t i = 0; i < row.children.count(thing); ++i) {
      void* child = row.children.at(thing, i);
      const std::string at = list ? inner + "[" + std::to_string(i) + "]" : inner;
      const grammar::Row* named = list ? row.table().rows.data() : nullptr;
      if (named != nullptr && named->kind == grammar::Kind::name &&
          value_of(*named, child) == grammar::Value(name)) {
        return {&row.table(), at, row.key};
      }
      if (list || child == thing) continue;
      if (InSite found = find_named(row.table(), child, at, name); found.table) return found;
    }
  }
  return {};
}

void section_editor(Session& s) {
  const auto index = static_cast<std::size_t>(s.chosen.index);
  if (index >= s.site->boundary.sections.size()) return;
  large(s.site->boundary.sections[index].name);
  soft_text("Fence. Drag its corner posts in the view, or type here.");
  site_table_fields(
      s, {&grammar::section_table(), "boundary.section[" + std::to_string(index) + "]", "section"});
  if (const leap::Result* leap = leap_result(s))
    figure("Escape margin of the yard",
           leap->escape_leap_m ? words("%.2f", leap->margin) : words("over %.2f", leap->margin),
           leap->margin < 1.0 ? tone::short_of() : tone::met(), "Escape demand over leap height");
}

void part_editor(Session& s, const Part& part) {
  large(part.name);
  Site site = *s.site;
  const InSite in = find_named(grammar::site_table(), &site, "", part.name);
  if (in.table != nullptr)
    site_table_fields(s, in);
  else
    soft_text((std::string(to_string(part.kind)) + ". It follows from other tables.").c_str());
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

// The tables there is one of.
void site_fields(Session& s) {
  for (const grammar::Row& row : grammar::site_table().rows) {
    if (row.kind != grammar::Kind::table || row.children.count(s.site.get()) == 0) continue;
    if (!ImGui::TreeNode(row.key.c_str())) continue;
    site_table_fields(s, {&row.table(), row.key, row.key});
    ImGui::TreePop();
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
    part_editor(s, part);
  } else {
    soft_text("Click a thing in the view to choose it; drag it to move it.");
    site_fields(s);
  }
  add_list(s);
}

}  // namespace hummock::viewer
