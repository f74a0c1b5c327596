#include "engine/check/ice.h"

#include <algorithm>
#include <cmath>

#include "engine/houses/houses.h"

namespace hummock {
namespace {

double thickest_ice(const std::vector<houses::ClimateHour>& climate) {
  constexpr double kHoursOfDay = 24.0;
  double frost = 0.0;  // degree-days
  double most = 0.0;
  for (const houses::ClimateHour& hour : climate) {
    frost = std::max(0.0, frost - hour.temperature_c * hour.hours / kHoursOfDay);
    most = std::max(most, frost);
  }
  return kStefan * std::sqrt(most);
}

}  // namespace

leap::Ice ice_on(const Site& site) {
  if (site.waters.empty()) return leap::Ice::none;
  if (site.place && site.place->freezes) {
    return *site.place->freezes ? leap::Ice::bears : leap::Ice::none;
  }
  if (site.climate.empty()) return leap::Ice::unknown;
  try {
    const double ice = thickest_ice(houses::climate_of(site));
    return ice >= kBearing ? leap::Ice::bears : leap::Ice::none;
  } catch (const InputError&) {
    return leap::Ice::unknown;  // said by the houses' check
  }
}

}  // namespace hummock
