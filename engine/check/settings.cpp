#include "engine/check/settings.h"

#include "engine/brief/asked.h"
#include "engine/check/hot_season.h"
#include "engine/check/ice.h"
#include "engine/sun/highest_noon.h"

namespace hummock {
namespace {

// The largest margin that any requirement asks for, so that remedies and the height cap meet the
// brief.
double required_margin(const Site& site, double otherwise) {
  return most_asked(site, "leap.margin", otherwise);
}

}  // namespace

sun::Date design_day(const Site& site, const CheckOptions& options) {
  constexpr int kYear = 2026;
  if (options.date) return *options.date;
  if (!site.place) return {kYear, 6, 21};
  const auto days = sun::highest_noons(site.place->latitude, site.place->longitude, kYear);
  return bare_on(site, days[1]) > bare_on(site, days[0]) ? days[1] : days[0];
}

EffectiveSettings resolve(const Site& site, const CheckOptions& options) {
  EffectiveSettings out;
  out.only = options.only;
  out.leap = options.leap;
  out.leap.required_margin = required_margin(site, options.leap.required_margin);
  out.leap.ice = ice_on(site);
  out.entry.leap = out.leap;
  out.shade.date = design_day(site, options);
  if (!options.date) out.shade.hot_days = other_hot_days(site, out.shade.date);
  out.shade.step_minutes = options.shade_step_minutes;
  out.clock_hours = options.clock_hours;
  out.explore = options.explore;
  return out;
}

}  // namespace hummock
