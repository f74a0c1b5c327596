// What fences and glass let through, and what feet find on them.
//
// A mesh of clear opening w and wire d has the open share (w / (w + d))², the open screening area
// of a square mesh as ISO 9044 defines it. Glass: 0.88 of the light (6 mm clear float glass at
// right angles, from memory), all of the sight. Solid: nothing.
#pragma once

#include "engine/model/model.h"

namespace hummock {

inline constexpr double kGlassLight = 0.88;  // from memory, see above

double mesh_openness(double aperture, double wire);

// Sets surface, openness, sight, aperture and wire of a sheet. `surface` is the site file's word,
// empty for what the kind implies.
void set_sheet(Part& part, SheetKind kind, double aperture, double wire,
               const std::string& surface = {});

// The site file's word for a surface; `otherwise` when it is empty.
Surface surface_named(const std::string& word, Surface otherwise);

// Leaf area density (m²/m³) that stops the share `cover` of a vertical beam over `height`:
// Beer–Lambert with leaves at all angles alike, G = 0.5. `cover` is taken as at most 0.999.
double density_for_cover(double cover, double height);

}  // namespace hummock
