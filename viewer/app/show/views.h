// Where the view buttons and keys take the camera.
#pragma once

#include <string>

#include "viewer/app/session.h"

namespace hummock::viewer {

// Whole, plan, the four elevations and both walks. `glide`: fly there.
void look_at_whole(Session& session, bool glide = true);
// Parallel views and walks are jumped to: there is nothing to glide through.
void look_at_plan(Session& session);
// `from`: the side one stands on, "south", "east", "north", "west" (of the drawing, not true
// north).
void look_from(Session& session, const std::string& from);
void walk_as_guest(Session& session);
void walk_as_animal(Session& session);
void look_at_chosen(Session& session, bool glide = true);
// Flies to a place, keeping the direction, so that about `radius` metres round it are in view.
void look_at_place(Session& session, Vec3 at, double radius, bool glide = true);
// By the names of --camera: whole plan south east north west guest animal. False when unknown.
bool look_by_name(Session& session, const std::string& name);

void keep_on_ground(Session& session);
void walk(Session& session, double ahead, double aside);
// The flight of this frame; true while flying.
bool fly(Session& session);
void fly_to(Session& session, const Camera& to, bool glide);
// The cutting plane as the drawing wants it.
void update_cut(Session& session);

}  // namespace hummock::viewer
