// A smooth surface through heights given round a polygon: mean value coordinates.
//
// Floater, Mean value coordinates, Computer Aided Geometric Design 20 (2003) 19–27, in the form for
// any simple polygon of Hormann & Floater, ACM Transactions on Graphics 25 (2006) 1424–1441. On the
// polygon's edges the value is linear between its corners; a plane comes out as that plane; inside
// a convex polygon the value lies between the least and the greatest.
#pragma once

#include <vector>

#include "geometry/plan/polygon.h"

namespace hummock {

// One value for each corner of `polygon` (no two neighbours alike in place). p inside or on it.
double mean_value(const geom::Polygon& polygon, const std::vector<double>& values, geom::Vec2 p);

}  // namespace hummock
