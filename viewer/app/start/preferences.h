// What the viewer remembers of its user from one run to the next: a small JSON file in the config
// folder. Nothing of a site is in it.
#pragma once

#include <filesystem>

namespace hummock::viewer {

struct Preferences {
  int window_width = 1280;  // screen units
  int window_height = 800;
  int window_x = -1;  // -1: wherever the system puts it
  int window_y = -1;
  bool maximised = false;
  double left_width = 22.0;  // in text heights, so that they fit any screen density
  double right_width = 20.0;
  bool left_open = true;
  bool right_open = true;
  bool time_open = true;
  bool hints_seen = false;
  double text_scale = 1.0;  // on top of the screen's own scale, 0.6..2.5
  int samples = 1;          // anti-aliasing: 1, 2, 4, 8
  bool shadows = true;
  bool corner_shade = true;
  double grid = 1.0;     // m
  double contour = 0.0;  // m
};

std::filesystem::path preferences_file();
// Anything missing, broken or out of range is the default: a bad file must not stop the program.
Preferences read_preferences(const std::filesystem::path& file);
// A folder that cannot be written is no error either; false then.
bool write_preferences(const std::filesystem::path& file, const Preferences& preferences);

}  // namespace hummock::viewer
