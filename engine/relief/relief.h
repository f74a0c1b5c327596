// Relief: how uneven the ground inside the boundary is.
//
// Heights are the heightfield's nodes inside the outline. ISO 25178-2 height parameters (Sa, Sq,
// Sz, Ssk, Sku) are about the least-squares plane; hybrid Sdq and Sdr are of the residual surface.
// Raster metrics are those of GDAL's DEM tools: slope by Horn (1981), ruggedness index by Riley et
// al. (1999), position index by Weiss (2001) / Wilson et al. (2007), roughness as the range of the
// 3×3 window; vector ruggedness by Sappington et al. (2007). Nodes whose window leaves the grid are
// left out.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/grid.h"

namespace hummock::relief {

struct Feature {          // a rise or a hollow
  Vec2 at;                // local
  double height_m = 0.0;  // of the top (bottom)
  double prominence_m = 0.0;
};

struct Result {
  double sa_m = 0, sq_m = 0, sz_m = 0, ssk = 0, sku = 0, sdq = 0, sdr = 0;
  double mean_slope_deg = 0, max_slope_deg = 0;
  double tri_mean_m = 0, tpi_sd_m = 0, roughness_mean_m = 0, vrm_mean = 0;
  double flat_share = 0;  // of the area, flatter than 5°
  double aspect_entropy =
      0;  // Shannon, 8 compass classes, 0..1 (1 = all ways alike); flat cells left out
  double range_m = 0;
  std::vector<Feature> rises;  // prominence >= Settings::prominence, greatest first
  std::vector<Feature> hollows;
};

struct Settings {
  double prominence = 0.10;  // m, least rise or hollow counted, > 0
};

Result analyse(const Model& model, const Settings& settings = {});

}  // namespace hummock::relief
