#include "viewer/app/start/state_file.h"

#include <nlohmann/json.hpp>

#include "viewer/app/show/layers.h"
#include "viewer/app/show/marks.h"
#include "viewer/draw/gl_debug.h"

namespace hummock::viewer {
namespace {

using nlohmann::json;

json point(Vec3 p) {
  return {p.x, p.y, p.z};
}

json objects(const Session& s, double x, double y, double k) {
  json out = json::array();
  const Model* m = model(s);
  if (m == nullptr) return out;
  for (std::size_t i = 0; i < m->site.objects.size(); ++i) {
    const Object& o = m->site.objects[i];
    const int part = i < m->object_part.size() ? m->object_part[i] : -1;
    if (part < 0) continue;
    const Box3 box = geom::bounds(m->parts[static_cast<std::size_t>(part)].mesh);
    Vec3 middle = box.centre();
    middle.z = box.lo.z + 0.6 * (box.hi.z - box.lo.z);
    const OnScreen seen = project(s.draw.camera, s.view, middle);
    json one{{"name", o.name}, {"at", {o.at.x + m->origin.x, o.at.y + m->origin.y}}};
    if (seen.ahead) one["pixel"] = {x + seen.pixel.x * k, y + seen.pixel.y * k};
    if (const auto* row = leap_row(s, static_cast<int>(i)))
      one["verdict"] = leap::to_string(row->verdict);
    out.push_back(one);
  }
  return out;
}

json brief(const Session& s) {
  json out = json::array();
  if (!s.study.judged()) return out;
  for (const BriefRow& r : s.study.judged()->results.brief) {
    json one{{"what", r.what}, {"met", to_string(r.met)}};
    if (r.value) one["value"] = *r.value;
    out.push_back(one);
  }
  return out;
}

// Where marks on the ground stand on the screen: corners of the outline and its middle.
json ground_marks(const Session& s, double x, double y, double k) {
  json out = json::array();
  const Model* m = model(s);
  if (m == nullptr) return out;
  for (const Vec2 p : m->outline) {
    const OnScreen seen =
        project(s.draw.camera, s.view, geom::at_height(p, geom::height_at(m->ground, p)));
    out.push_back({x + seen.pixel.x * k, y + seen.pixel.y * k});
  }
  return out;
}

const char* chosen_word(const Session& s) {
  static constexpr const char* kWords[] = {"nothing", "object", "section", "part"};
  return kWords[static_cast<int>(s.chosen.kind)];
}

}  // namespace

std::string state_json(const Session& s, double x, double y, double k) {
  json j;
  j["revision"] = s.document.revision();
  j["dirty"] = s.document.dirty();
  j["can_undo"] = s.document.can_undo();
  j["undo"] = s.document.undo_name();
  j["figures_current"] = s.study.figures_current();
  j["trouble"] = s.study.trouble();
  j["live"] = leap_is_live(s);
  if (leap_is_live(s)) j["live_seconds"] = s.study.live()->seconds;
  j["note"] = s.now < s.note_until ? s.note : "";
  j["chosen"] = {{"kind", chosen_word(s)}, {"index", s.chosen.index}};
  j["objects"] = objects(s, x, y, k);
  j["outline"] = ground_marks(s, x, y, k);
  j["brief"] = brief(s);
  j["findings"] = s.study.judged() ? s.study.judged()->findings.size() : 0;
  j["finding"] = s.finding.finding;
  if (const auto* leap = leap_result(s)) j["margin"] = leap->margin;
  j["camera"] = {{"heading", s.draw.camera.heading},
                 {"tilt", s.draw.camera.tilt},
                 {"distance", s.draw.camera.distance},
                 {"target", point(s.draw.camera.target)}};
  j["walk_as"] = s.walk_as;
  j["layer"] = s.layer;
  j["layer_current"] = !s.layer.empty() && layer_current(s);
  j["hour"] = s.time.hour;
  j["day"] = s.time.day;
  j["tool"] = s.tool == Tool::shape ? "shape" : "hand";
  j["question"] = s.offer_recovery ? "recovery"
                  : s.disk_changed ? "disk"
                  : s.ask_quit     ? "quit"
                                   : "";
  j["built"] = s.shown.model != nullptr;
  j["scene"] = {x, y, s.view.width * k, s.view.height * k};
  j["gl_errors"] = gl_errors().count;
  json widgets = json::object();
  for (const auto& [name, at] : s.widgets) widgets[name] = {at.x, at.y};
  j["widgets"] = widgets;
  return j.dump(1);
}

}  // namespace hummock::viewer
