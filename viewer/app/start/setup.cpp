#include "viewer/app/start/setup.h"

#include <algorithm>
#include <sstream>

#include "engine/base/input_error.h"
#include "engine/maps/map_layers.h"
#include "viewer/app/show/day.h"
#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"

namespace hummock::viewer {
namespace {

void set_date(Session& s, const std::string& text) {
  if (text.empty()) return;
  const sun::Date date = sun::parse_date(text, {"", 0, "--date"});
  s.time.year = date.year;
  for (s.time.day = 1; s.time.day < days_in_year(date.year); ++s.time.day)
    if (date_of(s.time) == date) break;
}

void set_layer(Session& s, const std::string& name) {
  if (name.empty()) return;
  std::string known;
  for (const auto& info : maps::layers()) {
    if (info.name == name) {
      s.layer = name;
      return;
    }
    known += (known.empty() ? "" : ", ") + info.name;
  }
  throw InputError({"", 0, "--layer"}, "\"" + name + "\"", "one of " + known);
}

bool six_numbers(Session& s, const std::string& text) {
  std::istringstream in(text);
  double v[6];
  char comma = ',';
  for (int k = 0; k < 6; ++k)
    if (!(in >> v[k]) || (k < 5 && !(in >> comma && comma == ','))) return false;
  if (!in.eof() || !(v[5] > 0.0)) return false;
  Camera c = s.draw.camera;
  const Vec2 o = model(s)->origin;
  c.stance = Stance::orbit;
  c.fov = Camera{}.fov;
  c.target = {v[0] - o.x, v[1] - o.y, v[2]};
  c.heading = v[3] * geom::kDegree;
  c.tilt = std::clamp(v[4], -89.9, 89.9) * geom::kDegree;
  c.distance = v[5];
  fly_to(s, c, false);
  return true;
}

void choose_by_name(Session& s, const std::string& name) {
  const Site& site = model(s)->site;
  for (std::size_t i = 0; i < site.objects.size(); ++i)
    if (site.objects[i].name == name) s.chosen = {Chosen::Kind::object, static_cast<int>(i)};
  for (std::size_t i = 0; i < site.boundary.sections.size(); ++i)
    if (site.boundary.sections[i].name == name)
      s.chosen = {Chosen::Kind::section, static_cast<int>(i)};
  if (s.chosen.kind == Chosen::Kind::nothing)
    throw InputError({"", 0, "--choose"}, "\"" + name + "\"",
                     "the name of an object or a fence section");
}

}  // namespace

void set_up(Session& s, const Options& o) {
  set_date(s, o.date);
  s.time.hour = std::min(o.hour, 24.0 - 1.0 / 60.0);
  set_layer(s, o.layer);
}

void point_camera(Session& s, const Options& o) {
  if (!o.choose.empty()) choose_by_name(s, o.choose);
  if (o.finding > 0 && s.study.judged()) {
    if (o.finding > static_cast<int>(s.study.judged()->findings.size()))
      throw InputError({"", 0, "--finding"}, std::to_string(o.finding),
                       "1 to " + std::to_string(s.study.judged()->findings.size()));
    show_finding(s, o.finding - 1);
    if (s.flight) fly_to(s, s.flight->to, false);
  }
  const bool keep = o.finding > 0 && o.camera == "whole";
  if (!keep && !look_by_name(s, o.camera) && !six_numbers(s, o.camera))
    throw InputError({"", 0, "--camera"}, "\"" + o.camera + "\"",
                     "whole, plan, south, east, north, west, guest, animal or "
                     "x,y,z,heading,tilt,distance");
  update_marks(s);
}

}  // namespace hummock::viewer
