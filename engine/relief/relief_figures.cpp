#include "engine/relief/relief_json.h"

namespace hummock::relief {

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"relief.sa_m", "mean relief Sa about the sloping mean plane", "m", 3, Better::more,
       "Mean distance of the ground from its best plane (ISO 25178-2)."},
      {"relief.sq_m", "root mean square relief Sq", "m", 3, Better::more,
       "Root mean square distance of the ground from its best plane (ISO 25178-2)."},
      {"relief.sz_m", "greatest relief Sz", "m", 3, Better::more,
       "Highest less lowest of the ground about its best plane (ISO 25178-2)."},
      {"relief.ssk", "skewness Ssk of the relief", "", 2, Better::neither,
       "Above 0 few high mounds on flat ground, below 0 few deep hollows (ISO 25178-2)."},
      {"relief.sku", "kurtosis Sku of the relief", "", 2, Better::neither,
       "3 for heights spread as a bell curve, more for few sharp forms (ISO 25178-2)."},
      {"relief.sdq", "root mean square gradient Sdq", "", 3, Better::neither,
       "Root mean square rise over run of the ground about its best plane (ISO 25178-2)."},
      {"relief.sdr", "added surface Sdr", "of 1", 3, Better::neither,
       "How much more surface the ground has than its plane (ISO 25178-2)."},
      {"relief.mean_slope_deg", "mean slope", "°", 1, Better::neither,
       "Mean of Horn's slope over the ground inside."},
      {"relief.max_slope_deg", "steepest slope", "°", 1, Better::neither,
       "Greatest of Horn's slope over the ground inside."},
      {"relief.tri_mean_m", "mean ruggedness index", "m", 3, Better::neither,
       "Riley's terrain ruggedness, mean over the ground; it depends on the cell."},
      {"relief.tpi_sd_m", "spread of the position index", "m", 3, Better::neither,
       "Standard deviation of height less the mean of its neighbours; it depends on the cell."},
      {"relief.roughness_mean_m", "mean roughness", "m", 3, Better::neither,
       "Mean range of heights in a window of three cells; it depends on the cell."},
      {"relief.vrm_mean", "mean vector ruggedness", "", 4, Better::neither,
       "Spread of the ground's normals in a window (Sappington); it depends on the cell."},
      {"relief.flat_share", "share of the ground flatter than 5°", "of 1", 2, Better::neither,
       "Area flatter than 5°, of all inside."},
      {"relief.aspect_entropy", "spread of the ways the ground faces", "of 1", 2, Better::more,
       "1 when slopes face all eight ways alike, 0 when all face one (Shannon)."},
      {"relief.range_m", "highest less lowest ground", "m", 2, Better::more,
       "Difference of heights inside the boundary."},
      {"relief.plane_slope_deg", "slope of the ground as a whole", "°", 1, Better::neither,
       "Slope of the best plane."},
      {"relief.plane_downhill_deg", "way the ground as a whole falls", "°", 0, Better::neither,
       "Clockwise from north."},
      {"relief.rise_count", "rises of the ground", "", 0, Better::more,
       "Tops that stand at least 0.1 m above every way off them."},
      {"relief.hollow_count", "hollows of the ground", "", 0, Better::neither,
       "Bottoms at least 0.1 m below every way out of them."}};
  return rows;
}

}  // namespace hummock::relief
