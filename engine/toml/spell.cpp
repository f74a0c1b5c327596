// Values as TOML spells them.
#include <fmt/format.h>

#include "engine/toml/edit_text.h"

namespace hummock {

std::string toml_number(double value) {
  std::string text = fmt::format("{}", value);
  if (text.find_first_of(".e") == std::string::npos) text += ".0";
  return text;
}

std::string toml_integer(long long value) {
  return std::to_string(value);
}

std::string toml_flag(bool value) {
  return value ? "true" : "false";
}

std::string toml_text(std::string_view value) {
  std::string out = "\"";
  for (const char c : value) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte == 0x7f) {
      out += fmt::format("\\u{:04X}", byte);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string toml_point(geom::Vec2 p) {
  return "[" + toml_number(p.x) + ", " + toml_number(p.y) + "]";
}

std::string toml_size(geom::Vec3 size) {
  return "[" + toml_number(size.x) + ", " + toml_number(size.y) + ", " + toml_number(size.z) + "]";
}

std::string toml_points(const std::vector<geom::Vec2>& points) {
  std::string out = "[";
  for (std::size_t i = 0; i < points.size(); ++i) {
    out += (i == 0 ? "" : ", ") + toml_point(points[i]);
  }
  return out + "]";
}

}  // namespace hummock
