#include "engine/shade/shade_json.h"

namespace hummock::shade {

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"shade.hottest_shade_m2_per_animal", "least shade for each animal, 11–15 h by the sun",
       "m² per animal", 2, Better::more,
       "Shaded places to lie, in patches the body fits, divided by the animals, at the hour of "
       "11–15 h when it is least: of the design day, and of each day of the hot season on which "
       "plants stand bare that are in leaf on it."},
      {"shade.sun_hours_min", "hours of sun at the coolest spot", "h", 1, Better::neither,
       "Direct sun of the design day where the ground has least."},
      {"shade.sun_hours_mean", "hours of sun, mean over the ground", "h", 1, Better::neither,
       "Direct sun of the design day, mean over the ground inside."},
      {"shade.sun_hours_max", "hours of sun at the sunniest spot", "h", 1, Better::more,
       "Direct sun of the design day where the ground has most."},
      {"shade.irradiation_kwh_m2", "clear-sky irradiation of the day", "kWh/m²", 2, Better::neither,
       "Beam and sky light on the ground under a clear sky, mean."},
      {"shade.sky_view_mean", "share of the sky seen from the ground", "of 1", 2, Better::neither,
       "Mean over the ground, weighted as light falls on the level."},
      {"shade.shaded_share_least", "least share of the yard in shade", "of 1", 2, Better::more,
       "At the time of the design day when least of the yard is shaded."}};
  return rows;
}

}  // namespace hummock::shade
