// The look of the panels: Dear ImGui's style and font set to our own tones (scene/tone.h).
#pragma once

#include <imgui.h>

#include "viewer/scene/colour.h"

namespace hummock::viewer {

// Loads DejaVu Sans (Debian's fonts-dejavu-core) at `scale` times the plain size, or ImGui's own
// font when it is not installed, and sets every colour and measure. Needs an ImGui context.
void set_style(double scale);

ImVec4 imgui_colour(Colour c);
ImU32 imgui_packed(Colour c);
ImU32 imgui_packed(Colour c, float alpha);

// The larger font for figures; the plain one when it could not be loaded.
ImFont* large_font();

}  // namespace hummock::viewer
