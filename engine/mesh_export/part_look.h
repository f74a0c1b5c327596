// How a part looks in a file: its material, and the colours of its vertices.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "engine/mesh_export/chosen_parts.h"

namespace hummock::mesh_export {

enum class Format { glb, obj, stl, ply };

using Rgba = std::array<float, 4>;  // 0..1; linear light in glb, as on a screen in others

// One material for all parts that look alike.
struct Look {
  Surface surface;
  bool glass;
  double opacity;
  bool valued;
  auto operator<=>(const Look&) const = default;  // NOLINT(modernize-use-nullptr): its false alarm
};
Look look_of(const ExportPart& part);
const char* material_name(const ExportPart& part);
// Of the whole part; white where its vertices have colours for their values.
Rgba material_colour(const ExportPart& part, double opacity, Format format);

// Least and greatest value over all parts.
struct Range {
  double lo = 1e300, hi = -1e300;
};
Range range_of_values(const std::vector<ExportPart>& parts);
bool has_vertex_colours(const ExportPart& part, Format format);
Rgba vertex_colour(const ExportPart& part, std::uint32_t vertex, const Range& range, Format format);

// Ground, and what is printed, is smooth throughout; other parts have edges.
double crease_of(const ExportPart& part, Format format);

}  // namespace hummock::mesh_export
