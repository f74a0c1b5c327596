// The mouse in the scene: look round, pan, zoom, take hold of things, shape the ground.
#pragma once

#include <optional>
#include <vector>

#include "viewer/app/session.h"

namespace hummock::viewer {

struct PointerState {
  Vec2 at;              // pixels of the view
  bool inside = false;  // over the scene, no panel takes it
  bool left_pressed = false, left_down = false, left_released = false;
  bool right_pressed = false, right_down = false, right_released = false;
  bool twice = false;  // a double click
  double wheel = 0.0;
  bool shift = false;  // lifts instead of moving along the ground
};

void use_pointer(Session& session, const PointerState& pointer);

// Handles drawn over the scene, with their places on the screen.
struct Handle {
  enum class Kind { corner, turn } kind = Kind::corner;
  int index = 0;
  Vec3 at;  // local
  Vec2 pixel;
  bool ahead = false;
};
std::vector<Handle> handles(const Session& session);

// Is the view being moved by hand?
bool view_in_hand(const Session& session);

}  // namespace hummock::viewer
