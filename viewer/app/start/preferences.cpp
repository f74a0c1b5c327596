#include "viewer/app/start/preferences.h"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/base/atomic_file.h"
#include "viewer/document/user_folders.h"

namespace hummock::viewer {
namespace {

using nlohmann::json;

void take(const json& j, const char* key, bool& to) {
  if (const auto it = j.find(key); it != j.end() && it->is_boolean()) to = it->get<bool>();
}
void take(const json& j, const char* key, int& to, int least, int most) {
  if (const auto it = j.find(key); it != j.end() && it->is_number())
    to = static_cast<int>(std::clamp(it->get<double>(), double(least), double(most)));
}
void take(const json& j, const char* key, double& to, double least, double most) {
  if (const auto it = j.find(key); it != j.end() && it->is_number())
    to = std::clamp(it->get<double>(), least, most);
}

}  // namespace

std::filesystem::path preferences_file() {
  return config_folder() / "viewer.json";
}

Preferences read_preferences(const std::filesystem::path& file) {
  Preferences p;
  std::ifstream in(file);
  if (!in) return p;
  const json j = json::parse(in, nullptr, false);
  if (!j.is_object()) return p;
  take(j, "window_width", p.window_width, 480, 16000);
  take(j, "window_height", p.window_height, 320, 16000);
  take(j, "window_x", p.window_x, -1, 30000);
  take(j, "window_y", p.window_y, -1, 30000);
  take(j, "maximised", p.maximised);
  take(j, "left_width", p.left_width, 12.0, 60.0);
  take(j, "right_width", p.right_width, 12.0, 60.0);
  take(j, "left_open", p.left_open);
  take(j, "right_open", p.right_open);
  take(j, "time_open", p.time_open);
  take(j, "hints_seen", p.hints_seen);
  take(j, "text_scale", p.text_scale, 0.6, 2.5);
  take(j, "samples", p.samples, 1, 8);
  take(j, "shadows", p.shadows);
  take(j, "corner_shade", p.corner_shade);
  take(j, "grid", p.grid, 0.0, 100.0);
  take(j, "contour", p.contour, 0.0, 100.0);
  return p;
}

bool write_preferences(const std::filesystem::path& file, const Preferences& p) {
  const json j{{"window_width", p.window_width},
               {"window_height", p.window_height},
               {"window_x", p.window_x},
               {"window_y", p.window_y},
               {"maximised", p.maximised},
               {"left_width", p.left_width},
               {"right_width", p.right_width},
               {"left_open", p.left_open},
               {"right_open", p.right_open},
               {"time_open", p.time_open},
               {"hints_seen", p.hints_seen},
               {"text_scale", p.text_scale},
               {"samples", p.samples},
               {"shadows", p.shadows},
               {"corner_shade", p.corner_shade},
               {"grid", p.grid},
               {"contour", p.contour}};
  try {
    std::filesystem::create_directories(file.parent_path());
    save_bytes(file, j.dump(2) + "\n");
    return true;
  } catch (const std::exception&) {
    return false;
  }
}

}  // namespace hummock::viewer
