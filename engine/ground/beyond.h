// The land beyond the modelled ground, for the horizon it makes.
//
// Only of a raster: scattered points say nothing of the land between and beyond them. As far as the
// raster reaches, at most kBeyond from the modelled ground, and less where its pixels are so fine
// that they would be too many; on a grid no finer than the pixels and of at most kMostAcross cells.
// The site's earth forms, but for smoothing, are in it. Where the raster has no height the nearest
// one stands.
#pragma once

#include <memory>

#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

inline constexpr double kBeyond = 1000.0;        // m; common practice, no source
inline constexpr double kMostAcross = 400.0;     // cells; numeric, how fine the land is
inline constexpr double kMostPixelsRead = 16e6;  // of the raster; numeric, a limit of memory

// Nothing without a raster or a place, and where the raster goes no farther than the modelled
// ground. `site` is in local coordinates. Throws as raster_survey.h does.
std::shared_ptr<const geom::Heightfield> beyond(const Site& site, Vec2 origin);

}  // namespace hummock::ground
