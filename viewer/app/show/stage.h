// From a session to pixels: the scene into its target when something changed, panels over it.
#pragma once

#include "viewer/app/session.h"
#include "viewer/draw/frame_target.h"

namespace hummock::viewer {

// What must happen between frames: news from the engine, flights, clocks, questions to the engine.
// True while something moves by itself and the next frame should follow at once.
bool advance(Session& session, double now);

// Draws the scene at the view's size if anything changed since. While the view moves and a whole
// picture takes longer than a frame should, a coarser one.
void draw_scene(Session& session);

// A picture of the scene with its labels, legend, north and scale at any size, 16..8192 pixels a
// side; with `panels` the whole window as it would be at that size. Needs ImGui's OpenGL backend
// set up, and must not be called between NewFrame and Render.
Pixels take_picture(Session& session, int width, int height, bool panels);

}  // namespace hummock::viewer
