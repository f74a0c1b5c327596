#include "viewer/app/show/views.h"

#include <algorithm>
#include <cmath>

#include "engine/site/viewing_line.h"

namespace hummock::viewer {
namespace {

constexpr double kGuestEye =
    1.5;  // m, where the site names no viewing place; common practice, no source

constexpr double kGuestOff = 1.5;  // m outside the first edge, likewise; common practice, no source

geom::Box3 yard(const Session& s) {
  return s.shown.scene ? s.shown.scene->yard : geom::Box3{};
}

void leave_walk(Session& s) {
  s.walk_height.reset();
  s.walk_as.clear();
}

double heading_to(Vec2 from, Vec2 to) {
  return std::atan2(to.x - from.x, to.y - from.y);
}

// Where guests stand: the middle of the first viewing place, else outside the first edge.
struct Standing {
  Vec2 at;
  double heading = 0.0;
  double eye_height = kGuestEye;
};

Standing guest_place(const Model& m) {
  const auto& outline = m.site.boundary.outline;
  Viewing first;
  first.width = geom::distance(outline[0], outline[1]);
  first.eye_height = kGuestEye;
  if (!m.site.viewings.empty()) first = m.site.viewings.front();
  ViewingLine line = viewing_line(m.site.boundary, first);
  if (m.site.viewings.empty()) line.off = kGuestOff;
  return {geom::lerp(line.a, line.b, 0.5) - line.inwards * line.off, heading_to({}, line.inwards),
          first.eye_height};
}

}  // namespace

void fly_to(Session& s, const Camera& to, bool glide) {
  s.redraw = true;
  if (!glide) {
    s.flight.reset();
    s.draw.camera = to;
    return;
  }
  s.flight = Flight{s.draw.camera, to, s.now, 0.45};
}

bool fly(Session& s) {
  if (!s.flight) return false;
  const double t = (s.now - s.flight->start) / s.flight->length;
  s.draw.camera = between(s.flight->from, s.flight->to, t);
  if (t >= 1.0) s.flight.reset();
  s.redraw = true;
  return true;
}

void look_at_whole(Session& s, bool glide) {
  leave_walk(s);
  Camera c = s.draw.camera;
  c.stance = Stance::orbit;
  c.fov = Camera{}.fov;
  c.heading = 0.45;
  c.tilt = 0.62;
  frame(c, s.view, yard(s));
  fly_to(s, c, glide);
}

void look_at_plan(Session& s) {
  leave_walk(s);
  Camera c = s.draw.camera;
  look_plan(c, s.view, yard(s));
  fly_to(s, c, false);  // from perspective to parallel there is nothing to glide through
}

void look_from(Session& s, const std::string& from) {
  leave_walk(s);
  const double heading = from == "east"    ? -geom::kPi / 2.0
                         : from == "north" ? geom::kPi
                         : from == "west"  ? geom::kPi / 2.0
                                           : 0.0;
  Camera c = s.draw.camera;
  look_elevation(c, s.view, yard(s), heading);
  fly_to(s, c, false);
}

void walk_as_guest(Session& s) {
  const Model* m = model(s);
  if (m == nullptr) return;
  const Standing place = guest_place(*m);
  s.walk_height = place.eye_height;
  s.walk_as = "guest";
  Camera c = s.draw.camera;
  stand(c, geom::at_height(place.at, geom::height_at(m->ground, place.at) + place.eye_height),
        place.heading);
  fly_to(s, c, false);
}

void walk_as_animal(Session& s) {
  const Model* m = model(s);
  if (m == nullptr) return;
  const Vec2 at = m->site.leap_start ? *m->site.leap_start
                                     : geom::largest_inscribed_circle(m->outline, 0.2).centre;
  const double eye_height = m->site.species.eye_height.value;
  s.walk_height = eye_height;
  s.walk_as = "animal";
  Camera c = s.draw.camera;
  const double heading = heading_to(at, guest_place(*m).at);
  stand(c, geom::at_height(at, geom::height_at(m->ground, at) + eye_height), heading);
  c.tilt = -0.05;
  fly_to(s, c, false);
}

void keep_on_ground(Session& s) {
  const Model* m = model(s);
  if (m == nullptr || !s.walk_height) return;
  const Vec3 e = eye(s.draw.camera);
  set_eye_height(s.draw.camera, geom::height_at(m->ground, geom::xy(e)) + *s.walk_height);
}

void walk(Session& s, double ahead, double aside) {
  if (!s.walk_height) return;
  step(s.draw.camera, ahead, aside);
  keep_on_ground(s);
  s.redraw = true;
}

void look_at_place(Session& s, Vec3 at, double radius, bool glide) {
  leave_walk(s);
  Camera c = s.draw.camera;
  if (c.stance == Stance::walk) {
    c.stance = Stance::orbit;
    c.tilt = 0.5;
    c.fov = Camera{}.fov;
  }
  if (c.stance == Stance::orbit) c.tilt = std::clamp(c.tilt, 0.25, 1.0);
  geom::Box3 box;
  box.add(at - Vec3{radius, radius, radius * 0.6});
  box.add(at + Vec3{radius, radius, radius * 0.6});
  frame(c, s.view, box);
  fly_to(s, c, glide);
}

void look_at_chosen(Session& s, bool glide) {
  const Model* m = model(s);
  if (m == nullptr) return;
  geom::Box3 box;
  for (const Part& part : m->parts) {
    const bool object = s.chosen.kind == Chosen::Kind::object &&
                        (part.kind == PartKind::object || part.kind == PartKind::crown) &&
                        part.source == s.chosen.index;
    const bool section = s.chosen.kind == Chosen::Kind::section && part.kind == PartKind::panel &&
                         part.source == s.chosen.index;
    if (object || section) box.add(geom::bounds(part.mesh));
  }
  if (s.chosen.kind == Chosen::Kind::part)
    box.add(geom::bounds(m->parts[static_cast<std::size_t>(s.chosen.index)].mesh));
  if (box.empty()) {
    look_at_whole(s, glide);
    return;
  }
  look_at_place(s, box.centre(), std::max(1.0, geom::distance(box.lo, box.hi) * 0.8), glide);
}

bool look_by_name(Session& s, const std::string& name) {
  if (name == "whole")
    look_at_whole(s, false);
  else if (name == "plan")
    look_at_plan(s);
  else if (name == "guest")
    walk_as_guest(s);
  else if (name == "animal")
    walk_as_animal(s);
  else if (name == "south" || name == "east" || name == "north" || name == "west")
    look_from(s, name);
  else
    return false;
  return true;
}

void update_cut(Session& s) {
  s.draw.cut = {0, 0, 0, 0};
  s.draw.show.buried = s.cut.on;
  s.redraw = true;
  if (!s.cut.on || !s.shown.scene) return;
  const Vec3 middle = yard(s).centre();
  const Vec2 n{std::sin(s.cut.heading), std::cos(s.cut.heading)};
  s.draw.cut = {n.x, n.y, 0.0, -(n.x * middle.x + n.y * middle.y + s.cut.at)};
}

}  // namespace hummock::viewer
