// Raster metrics of the ground from 3 × 3 windows of nodes.
//
// With the window w0..w8 row by row from the north-west, w4 the centre, c the cell:
//   gx = ((w2 + 2w5 + w8) − (w0 + 2w3 + w6)) / 8c,  gy = ((w0 + 2w1 + w2) − (w6 + 2w7 + w8)) / 8c
//     (Horn 1981, Proc. IEEE 69:14–47);
//   slope        atan √(gx² + gy²), radians;
//   aspect       the way the ground falls, radians clockwise from +y, 0 ≤ a < 2π; NaN where level;
//   ruggedness   √ Σ (wi − w4)² over the 8 neighbours (Riley et al. 1999, Intermountain J. Sci. 5);
//   position     w4 − mean of the 8 neighbours (Weiss 2001; Wilson et al. 2007, Mar. Geod.
//   30:3–35); roughness    max − min of the nine (Wilson et al. 2007); vector ruggedness  1 − |Σ n|
//   / 9 over the nine unit normals of Horn gradients, so a 5 × 5 window
//     (Sappington et al. 2007, J. Wildl. Manage. 71:1419–1426);
//   surface ratio      true over plan area of the cell about the node: eight triangles from the
//     centre to its neighbours with every edge halved (Jenness 2004, Wildl. Soc. Bull. 32:829–839).
// The first three, roughness and ruggedness are what GDAL's DEM tools compute.
//
// Nodes whose window leaves the grid are NaN: one ring, two for vector ruggedness. A grid too small
// for any window is all NaN.
//
// Accuracy. Sums are in double, the values stored are float32. Against exact arithmetic on the same
// heights: `kAngleError` rad for slope and aspect, else relative 2⁻²⁴ of the value plus
// `kHeightError` times the largest |z| (cancellation); both are held by a random test. Against the
// true surface all are second-order in the cell where the surface is smooth.
//
// Speed: plain row loops that the compiler turns into vector code; one thread.
#pragma once

#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

inline constexpr double kAngleError = 4e-7;    // rad
inline constexpr double kHeightError = 4e-15;  // of the largest |z|

Raster slope(const Heightfield& ground);
Raster aspect(const Heightfield& ground);
Raster ruggedness(const Heightfield& ground);
Raster position_index(const Heightfield& ground);
Raster roughness(const Heightfield& ground);
Raster vector_ruggedness(const Heightfield& ground);
Raster surface_ratio(const Heightfield& ground);

}  // namespace hummock::geom
