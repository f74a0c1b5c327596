#include "viewer/app/tools/pointer.h"

#include <algorithm>
#include <cmath>

#include "viewer/app/show/marks.h"
#include "viewer/app/show/views.h"
#include "viewer/app/tools/editing.h"

namespace hummock::viewer {
namespace {

constexpr double kClick = 4.0;         // pixels: farther is a drag
constexpr double kHandleReach = 11.0;  // pixels
constexpr double kWheelStep = 0.88;

Sightline sight(const Session& s, Vec2 pixel) {
  return through(s.draw.camera, s.view, pixel);
}

// What to turn and zoom about: the thing under the pointer, else the plane of the target.
Vec3 anchor(const Session& s, Vec2 pixel) {
  if (s.picker)
    if (const auto hit = s.picker->pick(sight(s, pixel), s.draw, true)) return hit->at;
  return s.draw.camera.target;
}

std::optional<Handle> handle_at(const Session& s, Vec2 pixel) {
  for (const Handle& h : handles(s))
    if (h.ahead && geom::distance(h.pixel, pixel) < kHandleReach * s.ui_scale) return h;
  return std::nullopt;
}

void choose(Session& s, const std::optional<Picked>& hit) {
  Chosen next;
  if (hit && hit->part >= 0) {
    const Part& part = s.shown.model->parts[static_cast<std::size_t>(hit->part)];
    const bool object = part.kind == PartKind::object || part.kind == PartKind::crown;
    if (object && part.source >= 0) {
      next = {Chosen::Kind::object, part.source};
    } else if (part.kind == PartKind::panel || part.kind == PartKind::overhang) {
      next = {Chosen::Kind::section, part.source};
    } else {
      next = {Chosen::Kind::part, hit->part};
    }
  }
  if (next == s.chosen) return;
  s.chosen = next;
  update_marks(s);
}

// Solid things first; a click that meets only ground or nothing may still mean the fence.
std::optional<Picked> pick_for_choice(const Session& s, Vec2 pixel) {
  auto hit = s.picker->pick(sight(s, pixel), s.draw, true);
  if (hit && hit->part >= 0) return hit;
  const auto any = s.picker->pick(sight(s, pixel), s.draw, false);
  if (any && any->part >= 0) return any;
  return hit;
}

void begin_stroke(Session& s, Vec2 pixel) {
  const auto at = s.picker->ground(sight(s, pixel));
  if (!at) return;
  s.hold.kind = Hold::Kind::shape;
  s.brush.path = {geom::xy(*at)};
  s.brush.level = at->z;
  propose_stroke(s);
}

void press_left(Session& s, const PointerState& p) {
  s.hold = {};
  s.hold.pressed = s.hold.last = p.at;
  s.hold.lift = p.shift;
  s.flight.reset();
  if (!s.picker) return;
  if (s.tool == Tool::shape) {
    begin_stroke(s, p.at);
    return;
  }
  if (const auto handle = handle_at(s, p.at)) {
    s.hold.grabbed = handle->at;
    if (handle->kind == Handle::Kind::corner) {
      s.hold.kind = Hold::Kind::corner;
      s.hold.angle = handle->index;
      s.hold.corner_before = s.site->boundary.outline[static_cast<std::size_t>(handle->index)];
    } else {
      s.hold.kind = Hold::Kind::turn;
      s.hold.before = *chosen_object(s);
    }
    return;
  }
  const auto hit = s.picker->pick(sight(s, p.at), s.draw, true);
  const Part* part =
      hit && hit->part >= 0 ? &s.shown.model->parts[static_cast<std::size_t>(hit->part)] : nullptr;
  if (part != nullptr && part->kind == PartKind::object && part->source >= 0 && !s.walk_height) {
    choose(s, hit);
    if (const auto object = chosen_object(s)) {
      s.hold.kind = Hold::Kind::object;
      s.hold.before = *object;
      s.hold.grabbed = hit->at;
      return;
    }
  }
  s.hold.kind = Hold::Kind::look;
  s.hold.grabbed = hit ? hit->at : s.draw.camera.target;
}

// The object follows the pointer: on the level at which it was gripped, or up and down.
Object dragged(const Session& s, Vec2 pixel) {
  Object value = s.hold.before;
  if (s.hold.lift) {
    const double size = pixel_size(s.draw.camera, s.view, s.hold.grabbed);
    value.z = std::max(0.0, value.z + (s.hold.pressed.y - pixel.y) * size);
    return value;
  }
  if (const auto at = on_level(sight(s, pixel), s.hold.grabbed.z)) {
    // Seen along the ground a pixel is many metres: no farther than the ground that is modelled.
    const auto& g = s.shown.model->ground.grid;
    const Vec2 to = value.at + geom::xy(*at) - geom::xy(s.hold.grabbed);
    const Vec2 o = s.shown.model->origin;
    value.at = {std::clamp(to.x, g.x0 + o.x, g.x_max() + o.x),
                std::clamp(to.y, g.y0 + o.y, g.y_max() + o.y)};
  }
  return value;
}

Object turned(const Session& s, Vec2 pixel) {
  Object value = s.hold.before;
  const Vec2 centre = value.at - s.shown.model->origin;
  if (const auto at = on_level(sight(s, pixel), s.hold.grabbed.z)) {
    const Vec2 arm = geom::xy(*at) - centre;
    if (geom::length(arm) > 0.05) value.turn = std::atan2(arm.y, arm.x);
  }
  // To whole degrees, so that the file reads well.
  value.turn = std::round(value.turn / geom::kDegree) * geom::kDegree;
  return value;
}

std::optional<Vec2> corner_now(const Session& s, Vec2 pixel) {
  const auto at = on_level(sight(s, pixel), s.hold.grabbed.z);
  if (!at) return std::nullopt;
  return geom::xy(*at) + s.shown.model->origin;
}

void drag(Session& s, const PointerState& p) {
  if (!s.hold.moved && geom::distance(p.at, s.hold.pressed) < kClick &&
      s.hold.kind != Hold::Kind::shape)
    return;
  s.hold.moved = true;
  if (p.at == s.hold.last) return;
  switch (s.hold.kind) {
    case Hold::Kind::look:
      orbit(s.draw.camera, s.view, s.hold.grabbed, p.at - s.hold.last);
      s.redraw = true;
      break;
    case Hold::Kind::pan:
      pan(s.draw.camera, s.view, s.hold.grabbed, s.hold.last, p.at);
      if (s.walk_height) keep_on_ground(s);
      s.redraw = true;
      break;
    case Hold::Kind::object:
      propose_object(s, s.chosen.index, dragged(s, p.at));
      break;
    case Hold::Kind::turn:
      propose_object(s, s.chosen.index, turned(s, p.at));
      break;
    case Hold::Kind::corner:
      if (const auto to = corner_now(s, p.at))
        propose_corner(s, static_cast<int>(s.hold.angle), *to);
      break;
    case Hold::Kind::shape:
      if (const auto at = s.picker->ground(sight(s, p.at))) {
        if (geom::distance(s.brush.path.back(), geom::xy(*at)) > s.brush.radius * 0.2) {
          s.brush.path.push_back(geom::xy(*at));
          propose_stroke(s);
        }
      }
      break;
    case Hold::Kind::nothing:
      break;
  }
  s.hold.last = p.at;
}

void let_go(Session& s, const PointerState& p) {
  const Hold hold = s.hold;
  switch (hold.kind) {
    case Hold::Kind::look:
      if (!hold.moved && s.picker) {
        choose(s, pick_for_choice(s, p.at));
        if (s.chosen.kind == Chosen::Kind::nothing) show_nothing(s);
      }
      break;
    case Hold::Kind::object:
      if (hold.moved)
        commit_object(s, s.chosen.index, dragged(s, p.at),
                      (hold.lift ? "lift " : "move ") + hold.before.name);
      break;
    case Hold::Kind::turn:
      if (hold.moved) commit_object(s, s.chosen.index, turned(s, p.at), "turn " + hold.before.name);
      break;
    case Hold::Kind::corner:
      if (const auto to = corner_now(s, p.at); to && hold.moved)
        commit_corner(s, static_cast<int>(hold.angle), *to);
      break;
    case Hold::Kind::shape:
      commit_stroke(s);
      break;
    case Hold::Kind::pan:
    case Hold::Kind::nothing:
      break;
  }
  s.hold = {};
  s.redraw = true;
}

void hover(Session& s, const PointerState& p) {
  s.under_pointer.reset();
  s.pointed_part = -1;
  if (!p.inside || !s.picker) return;
  const auto hit = s.picker->pick(sight(s, p.at), s.draw, true);
  if (!hit) return;
  s.under_pointer = hit->at;
  s.pointed_part = hit->part;
}

}  // namespace

std::vector<Handle> handles(const Session& s) {
  std::vector<Handle> out;
  const Model* m = model(s);
  if (m == nullptr || !s.site || s.tool != Tool::hand || s.walk_height) return out;
  const auto add = [&](Handle::Kind kind, int index, Vec3 at) {
    const OnScreen seen = project(s.draw.camera, s.view, at);
    out.push_back({kind, index, at, seen.pixel, seen.ahead});
  };
  if (s.chosen.kind == Chosen::Kind::section) {
    const auto& outline = m->site.boundary.outline;  // as shown, while dragging too
    for (std::size_t k = 0; k < outline.size(); ++k)
      add(Handle::Kind::corner, static_cast<int>(k),
          geom::at_height(outline[k], geom::height_at(m->ground, outline[k]) + 0.02));
  }
  if (const auto object = chosen_object(s)) {
    const Vec2 at = object->at - m->origin;
    const double arm = std::max({object->size.x, object->size.y, 0.5}) * 0.5 + 0.35;
    const Vec2 knob = at + Vec2{std::cos(object->turn), std::sin(object->turn)} * arm;
    add(Handle::Kind::turn, s.chosen.index,
        geom::at_height(knob, geom::height_at(m->ground, at) + 0.05));
  }
  return out;
}

bool view_in_hand(const Session& s) {
  return s.hold.moved && (s.hold.kind == Hold::Kind::look || s.hold.kind == Hold::Kind::pan);
}

void use_pointer(Session& s, const PointerState& p) {
  if (s.hold.kind == Hold::Kind::nothing) {
    hover(s, p);
    if (p.inside && p.left_pressed)
      press_left(s, p);
    else if (p.inside && p.right_pressed) {
      s.hold = {};
      s.hold.kind = Hold::Kind::pan;
      s.hold.pressed = s.hold.last = p.at;
      s.hold.grabbed = anchor(s, p.at);
      s.flight.reset();
    }
  } else if (s.hold.kind == Hold::Kind::pan ? p.right_down : p.left_down) {
    drag(s, p);
  }
  if (s.hold.kind != Hold::Kind::nothing &&
      (s.hold.kind == Hold::Kind::pan ? !p.right_down : !p.left_down)) {
    drag(s, p);
    let_go(s, p);
  }
  if (p.inside && p.wheel != 0.0 && s.hold.kind == Hold::Kind::nothing) {
    s.flight.reset();
    zoom(s.draw.camera, anchor(s, p.at), std::pow(kWheelStep, p.wheel));
    s.redraw = true;
    s.still_since = s.now;
    s.moving = true;
  }
  if (p.inside && p.twice && s.chosen.kind != Chosen::Kind::nothing) look_at_chosen(s);
}

}  // namespace hummock::viewer
