#include "engine/leap/rows/roof_rests_on.h"

#include <algorithm>

#include "engine/brief/brief.h"
#include "engine/brief/given.h"
#include "engine/leap/rows/figure_premises.h"

namespace hummock::leap {
namespace {

constexpr const char* kGap = "leap.roof_clearance_m";

std::optional<Premise> stronger_leap(const Model& model) {
  for (Premise& p : figure_premises(model))
    if (p.told.key == "leap_height" || p.told.key == "leap_distance") return std::move(p);
  return std::nullopt;
}

Result at_careful_end(const Model& model, const Species& species, const Settings& settings,
                      const Progress& progress) {
  Model careful = model;
  careful.site.species = species;
  Progress quiet;
  quiet.cancel = progress.cancel;
  return analyse(careful, settings, quiet);
}

}  // namespace

RestsOn what_the_roof_gap_rests_on(const Model& model, const Settings& settings,
                                   const Result& found, const Progress& progress) {
  RestsOn out;
  out.figures = {kGap};
  if (!found.roof_clearance_m) return out;
  const std::optional<double> asked = most_asked_and_met(model.site, kGap, *found.roof_clearance_m);
  std::optional<Premise> leap = stronger_leap(model);
  if (!asked || !leap) return out;
  Taken taken{model.site.species};
  leap->take(taken, 1.0);
  const Result careful = at_careful_end(model, taken.species, settings, progress);
  const bool holds = careful.complete && careful.roof_clearance_m.value_or(*asked) >= *asked;
  if (holds) return out;
  const double used = model.site.species.leap_height.value;
  const double breaks = used + *found.roof_clearance_m - *asked;
  leap->told.breaking_value = holding(used, taken.species.leap_height.value, breaks) + " m";
  leap->told.words = "it leaps less high than " + leap->told.breaking_value + " (used " +
                     plain_figure(used) + " m)";
  take_confirmations(model.site, leap->told);
  out.list.push_back(std::move(leap->told));
  return out;
}

}  // namespace hummock::leap
