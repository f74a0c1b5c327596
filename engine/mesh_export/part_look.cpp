#include "engine/mesh_export/part_look.h"

#include <algorithm>
#include <cmath>

#include "engine/draw/colour_scale.h"
#include "engine/mesh_export/part_colour.h"

namespace hummock::mesh_export {
namespace {

constexpr double kCrease = 30.0 * geom::kDegree;

// sRGB to linear light (IEC 61966-2-1): glTF's colours are linear.
double linear(double c) {
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

Rgba to_format(const draw::Colour& c, double opacity, Format format) {
  const bool as_light = format == Format::glb;
  const auto channel = [&](double v) { return static_cast<float>(as_light ? linear(v) : v); };
  return {channel(c.r), channel(c.g), channel(c.b), static_cast<float>(opacity)};
}

draw::Colour colour_of_value(float value, const Range& range) {
  if (!std::isfinite(value)) return {0.5, 0.5, 0.5, 1.0};
  const double span = range.hi - range.lo;
  return draw::sequential(span > 0.0 ? (value - range.lo) / span : 0.5);
}

}  // namespace

Look look_of(const ExportPart& part) {
  return {part.surface, part.glass, part.opacity, !part.values.empty()};
}

const char* material_name(const ExportPart& part) {
  return part.glass ? "glass" : to_string(part.surface);
}

Rgba material_colour(const ExportPart& part, double opacity, Format format) {
  const draw::Colour colour = part.values.empty() ? colour_of(part) : draw::Colour{1, 1, 1, 1};
  return to_format(colour, opacity, format);
}

Range range_of_values(const std::vector<ExportPart>& parts) {
  Range r;
  for (const ExportPart& part : parts)
    for (const float v : part.values)
      if (std::isfinite(v)) r = {std::min<double>(r.lo, v), std::max<double>(r.hi, v)};
  return r;
}

bool has_vertex_colours(const ExportPart& part, Format format) {
  return format == Format::ply || (format == Format::glb && !part.values.empty());
}

Rgba vertex_colour(const ExportPart& part, std::uint32_t vertex, const Range& range,
                   Format format) {
  if (part.values.empty()) return to_format(colour_of(part), part.opacity, format);
  return to_format(colour_of_value(part.values[vertex], range), 1.0, format);
}

double crease_of(const ExportPart& part, Format format) {
  return part.kind == PartKind::ground || format == Format::stl ? geom::kPi : kCrease;
}

}  // namespace hummock::mesh_export
