#include "engine/leap/rows/roof_rests_on.h"

#include <algorithm>

#include "engine/brief/brief.h"
#include "engine/brief/given.h"
#include "engine/findings/finding.h"
#include "engine/leap/rows/figure_premises.h"

namespace hummock::leap {
namespace {

constexpr const char* kGap = "leap.roof_clearance_m";
constexpr double kTaller = 1.25;  // of a body nobody has measured; common practice, no source

Result at_careful_end(const Model& model, const Species& species, const Settings& settings,
                      const Progress& progress) {
  Model careful = model;
  careful.site.species = species;
  Progress quiet;
  quiet.cancel = progress.cancel;
  return analyse(careful, settings, quiet);
}

double height_of(const Model& model) {
  return model.site.species.body.value[2];
}

// By another record or the file's careful value, else a quarter more where nobody has shown it.
double tallest(const Species& species) {
  const auto& body = species.body;
  const double used = body.value[2];
  double most = used;
  if (body.careful) most = std::max(most, (*body.careful)[2]);
  if (unsure(body) && (!body.careful || (*body.careful)[2] < used)) most = kTaller * used;
  for (const auto& record : body.records) most = std::max(most, record.value[2]);
  return most;
}

// Each with the value by which the `spare` gap, m, is used up.
std::optional<Assumption> of_the_leap(const Model& model, double spare) {
  std::optional<Premise> leap = leap_premise(model.site.species);
  if (!leap) return std::nullopt;
  Taken taken{model.site.species};
  leap->take(taken, 1.0);
  const double used = model.site.species.leap_height.value;
  leap->told.breaking_value = holding(used, taken.species.leap_height.value, used + spare) + " m";
  leap->told.words = "it leaps less high than " + leap->told.breaking_value + " (used " +
                     plain_figure(used) + " m)";
  take_confirmations(model.site, leap->told);
  return leap->told;
}

std::optional<Assumption> of_the_body(const Model& model, double spare) {
  const double used = height_of(model), most = tallest(model.site.species);
  if (most <= used) return std::nullopt;
  Assumption a;
  a.key = "body";
  a.used_value = plain_figure(used) + " m";
  a.careful_value = plain_figure(most) + " m";
  a.breaking_value = holding(used, most, used + spare) + " m";
  a.words = "it stands no taller than " + a.breaking_value + " (used " + a.used_value + ")";
  take_confirmations(model.site, a);
  return a;
}

std::optional<double> spare_at_the_careful_leap(const Model& model, const Settings& settings,
                                                double asked, const Progress& progress) {
  Taken taken{model.site.species};
  leap_premise(model.site.species)->take(taken, 1.0);
  const Result careful = at_careful_end(model, taken.species, settings, progress);
  if (!careful.complete) return std::nullopt;
  return careful.roof_clearance_m.value_or(asked) - asked;
}

}  // namespace

RestsOn what_the_roof_gap_rests_on(const Model& model, const Settings& settings,
                                   const Result& found, const Progress& progress) {
  RestsOn out;
  out.figures = {kGap};
  if (!found.roof_clearance_m) return out;
  const std::optional<double> asked = most_asked_and_met(model.site, kGap, *found.roof_clearance_m);
  if (!asked) return out;
  const double spare = *found.roof_clearance_m - *asked;
  const std::optional<Assumption> leap = of_the_leap(model, spare);
  const std::optional<Assumption> body = of_the_body(model, spare);
  if (!leap && !body) return out;
  // What is left of the gap at the careful leap; nothing where that is not known.
  const auto left = leap ? spare_at_the_careful_leap(model, settings, *asked, progress) : spare;
  const double taller = body ? tallest(model.site.species) - height_of(model) : 0.0;
  const bool by_leap = leap && (!left || *left < 0.0);
  const bool by_body = body && spare < taller;
  if (by_leap) out.list.push_back(*leap);
  if (by_body) out.list.push_back(*body);
  if (out.list.empty() && *left < taller) out.list.push_back(either_of(*leap, *body));
  return out;
}

}  // namespace hummock::leap
