#include "engine/sun/sun_json.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

namespace hummock::sun {
namespace {

using geom::kDegree;

// "2003-10-17T06:12:43-07:00"
std::string to_the_second(const Place& place, Instant when) {
  const double offset = utc_offset_h(place, when);
  const auto seconds = std::llround((when.ut_days + offset / 24.0) * 86400.0);
  const auto day = static_cast<int>(std::floor(static_cast<double>(seconds) / 86400.0));
  const auto s = static_cast<int>(seconds - static_cast<long long>(day) * 86400);
  const int zone = static_cast<int>(std::lround(offset * 60.0));
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", text(date_of(day)), s / 3600, s / 60 % 60,
                     s % 60, zone < 0 ? '-' : '+', std::abs(zone) / 60, std::abs(zone) % 60);
}

nlohmann::json or_null(const Place& place, const std::optional<Instant>& when) {
  return when ? nlohmann::json(to_the_second(place, *when)) : nlohmann::json();
}

}  // namespace

const char* to_string(DayKind kind) {
  switch (kind) {
    case DayKind::up_all_day:
      return "up all day";
    case DayKind::down_all_day:
      return "down all day";
    case DayKind::rises_and_sets:
      break;
  }
  return "rises and sets";
}

nlohmann::json to_json(const Place& place, Instant when) {
  const Position p = position(place, when);
  const RiseSet day = rise_set(place, local_date(place, when));
  nlohmann::json j;
  j["time"] = to_the_second(place, when);
  j["azimuth_deg"] = p.azimuth / kDegree;
  j["elevation_deg"] = p.elevation / kDegree;
  j["zenith_deg"] = 90.0 - p.elevation / kDegree;
  j["geometric_elevation_deg"] = p.true_elevation / kDegree;
  j["refraction_deg"] = (p.elevation - p.true_elevation) / kDegree;
  j["distance_au"] = p.distance_au;
  j["day"] = to_string(day.kind);
  j["sunrise"] = or_null(place, day.sunrise);
  j["transit"] = to_the_second(place, day.transit);
  j["sunset"] = or_null(place, day.sunset);
  j["day_length_h"] = day.day_length_h;
  j["delta_t_s"] = delta_t(when);
  return j;
}

}  // namespace hummock::sun
