// Several small plans of one quantity on a sheet, to one scale and with one legend.
#pragma once

#include <string>
#include <vector>

#include "engine/draw/site_plan.h"

namespace hummock::draw {

struct SmallPlan {
  std::string label;  // "13:00, sun 61° high"
  geom::Raster raster;
};

// In rows of `across`, or one fewer when that lets them be much larger. The model must outlive the
// figure. With low == high in `look` the range is that of all the rasters together.
Figure small_plans(const Model& model, std::vector<SmallPlan> plans, int across,
                   const std::string& name, const std::string& title, const std::string& unit,
                   LayerLook look);

}  // namespace hummock::draw
