// The box about a ball, cone or cylinder.
#pragma once

#include "geometry/mesh/round_volume.h"

namespace hummock::geom {

// Exact: it touches the body on every side.
Box3 bounds(const RoundVolume& volume);

}  // namespace hummock::geom
