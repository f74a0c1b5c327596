// Relief: how uneven the ground inside the boundary is.
//
// Height and hybrid parameters of ISO 25178-2:2021 (Sa, Sq, Sz, Ssk, Sku; Sdq, Sdr) of the residual
// from the least-squares plane over the outline. They are integrals over the triangulated ground
// cut at the outline (geometry/terrain/surface_moments.h), not sums over nodes, so they carry no
// error from the outline; against a smooth ground the error is that of the triangulation, second
// order in the cell for all but Sz, whose crests are missed by at most |curvature|·cell²/4.
// Definitions from memory (the standard is paid for). No filter is applied: waviness and roughness
// are taken whole.
//
// Raster metrics are those of GDAL's DEM tools (geometry/terrain/terrain_metrics.h): slope by Horn
// (1981), ruggedness index by Riley et al. (1999), position index by Weiss (2001) / Wilson et al.
// (2007), roughness as the range of the 3×3 window; vector ruggedness by Sappington et al. (2007).
// They are means over the nodes inside the outline; nodes whose window leaves the grid are left
// out, and windows at the outline look at the ground beyond it. They depend on the cell by
// definition: a figure is comparable only with one at the same cell.
//
// Rises and hollows: geometry/terrain/prominence.h. What is outside the outline counts as higher
// (lower) ground, so a rise stands above every way out and a tilted plane has none.
//
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::relief {

struct Feature {          // a rise or a hollow
  Vec2 at;                // local
  double height_m = 0.0;  // of the top (bottom)
  double prominence_m = 0.0;
};

// NaN where a figure has no meaning: Ssk and Sku of a ground that is its own plane, means over no
// node (a yard smaller than the windows).
struct Result {
  double sa_m = 0, sq_m = 0, sz_m = 0, ssk = 0, sku = 0, sdq = 0, sdr = 0;
  double mean_slope_deg = 0, max_slope_deg = 0;
  double tri_mean_m = 0, tpi_sd_m = 0, roughness_mean_m = 0, vrm_mean = 0;
  double flat_share = 0;  // of the area, flatter than 5° (it and 1°: common practice, no source)
  // Shannon, 8 compass classes, 0..1 (1 = all ways alike); what is flatter than 1° has no aspect.
  double aspect_entropy = 0;
  double range_m = 0;             // highest less lowest ground
  double plane_slope_deg = 0;     // of the least-squares plane
  double plane_downhill_deg = 0;  // the way it falls, clockwise from +y; NaN if level
  std::vector<Feature> rises;     // prominence >= Settings::prominence, greatest first
  std::vector<Feature> hollows;
};

struct Settings {
  double prominence = 0.10;  // m, least rise or hollow counted, > 0; common practice, no source
};

// Deterministic for any number of threads. Takes about 0.1 s a million cells and thread.
Result analyse(const Model& model, const Settings& settings = {});

}  // namespace hummock::relief
