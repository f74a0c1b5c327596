#include "engine/check/settings.h"

#include <algorithm>

#include "engine/check/ice.h"

namespace hummock {
namespace {

// The largest margin that any requirement asks for, so that remedies and the height cap meet the
// brief.
double required_margin(const Site& site, double otherwise) {
  for (const auto* list : {&site.species.requirements, &site.requirements}) {
    for (const Requirement& r : *list) {
      if (r.what == "leap.margin" && r.at_least) otherwise = std::max(otherwise, *r.at_least);
    }
  }
  return otherwise;
}

}  // namespace

sun::Date design_day(const Site& site, const CheckOptions& options) {
  if (options.date) return *options.date;
  const bool south = site.place && site.place->latitude < 0.0;
  return south ? sun::Date{2026, 12, 21} : sun::Date{2026, 6, 21};
}

EffectiveSettings resolve(const Site& site, const CheckOptions& options) {
  EffectiveSettings out;
  out.only = options.only;
  out.leap = options.leap;
  out.leap.required_margin = required_margin(site, options.leap.required_margin);
  out.leap.ice = ice_on(site);
  out.entry.leap = out.leap;
  out.shade.date = design_day(site, options);
  out.shade.step_minutes = options.shade_step_minutes;
  out.clock_hours = options.clock_hours;
  out.explore = options.explore;
  return out;
}

}  // namespace hummock
