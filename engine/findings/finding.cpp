#include "engine/findings/finding.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace hummock {

const char* to_string(Severity severity) {
  switch (severity) {
    case Severity::way_out:
      return "way out";
    case Severity::short_of:
      return "short";
    case Severity::look:
      return "look";
  }
  return "";
}

std::string place_words(const Model& model, Vec3 at) {
  const Vec3 s = model.to_site(at);
  return fmt::format("({:.2f}, {:.2f})", s.x, s.y);
}

std::string place_words(const Model& model, Vec2 at) {
  return place_words(model, Vec3{at.x, at.y, 0.0});
}

std::string quoted(const std::string& name) {
  return name.empty() ? name : "'" + name + "'";
}

std::string plain_figure(double value) {
  if (!std::isfinite(value)) return value > 0.0 ? "without end" : "–";
  if (std::abs(value) < 5e-4) return "0";
  const int before = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  return fmt::format("{:.{}f}", value, std::clamp(3 - before, 0, 3));
}

}  // namespace hummock
