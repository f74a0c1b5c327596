// hummock sun: where the sun stands, and when it rises and sets.
#include <fmt/core.h>

#include <cstdlib>
#include <limits>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "engine/base/input_error.h"
#include "engine/base/json_text.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/sun/sun.h"
#include "engine/sun/sun_json.h"

namespace hummock::cli {
namespace {

struct SunFlags {
  double latitude = 0.0;
  double longitude = 0.0;
  double elevation = 0.0;
  std::optional<double> pressure;
  double temperature = 10.0;
  std::string time;
  std::string zone;
  std::string json;
};

Place place_of(const SunFlags& flags) {
  Place place;
  place.latitude = flags.latitude * geom::kDegree;
  place.longitude = flags.longitude * geom::kDegree;
  place.elevation = flags.elevation;
  // In a place 0 means "from the elevation"; no air at all is the least number there is.
  place.pressure = flags.pressure.value_or(0.0);
  if (flags.pressure && *flags.pressure == 0.0) {
    place.pressure = std::numeric_limits<double>::min();
  }
  place.temperature = flags.temperature;
  return place;
}

[[noreturn]] void refuse_time(const std::string& found) {
  throw InputError({"", 0, "--time"}, "\"" + found + "\"",
                   "YYYY-MM-DDTHH:MM[:SS] and Z, ±HH:MM or --zone, years 1900 to 2100");
}

struct Moment {
  sun::Date date;
  double clock_hours = 0.0;
  std::string zone;
};

// "2003-10-17T12:30:30-07:00": the date, the clock, and the zone if it is written.
Moment parse_time(const std::string& text, const std::string& zone) {
  if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ')) refuse_time(text);
  Moment moment;
  moment.date = sun::parse_date(text.substr(0, 10), {"", 0, "--time"});
  int hour = 0;
  int minute = 0;
  double second = 0.0;
  int used = 0;
  const std::string clock = text.substr(11);
  if (std::sscanf(clock.c_str(), "%2d:%2d%n", &hour, &minute, &used) != 2 || used != 5) {
    refuse_time(text);
  }
  std::string rest = clock.substr(5);
  if (!rest.empty() && rest[0] == ':') {
    char* end = nullptr;
    second = std::strtod(rest.c_str() + 1, &end);
    if (end == rest.c_str() + 1) refuse_time(text);
    rest = end;
  }
  if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || !(second >= 0.0 && second < 60.0)) {
    refuse_time(text);
  }
  moment.clock_hours = hour + minute / 60.0 + second / 3600.0;
  moment.zone = rest.empty() ? zone : (rest == "Z" ? "+00:00" : rest);
  if (moment.zone.empty()) refuse_time(text);
  return moment;
}

int show_sun(const SunFlags& flags) {
  Place place = place_of(flags);
  const Moment moment = parse_time(flags.time, flags.zone);
  place.time_zone = moment.zone;
  const nlohmann::json all =
      sun::to_json(place, sun::instant(place, moment.date, moment.clock_hours));
  if (flags.json != "-") {
    for (const auto& [key, value] : all.items()) fmt::print("{:<24} {}\n", key, value.dump());
  }
  if (!flags.json.empty()) save_or_print(flags.json, json_text(all));
  return kAllMet;
}

}  // namespace

void add_sun(CommandLine& line) {
  auto flags = std::make_shared<SunFlags>();
  Command command = line.command("sun", "where the sun stands, when it rises and sets");
  command.required("--latitude", flags->latitude, {-90.0, 90.0}, "degrees north");
  command.required("--longitude", flags->longitude, {-180.0, 180.0}, "degrees east");
  command.number("--elevation", flags->elevation, {-500.0, 9000.0}, "metres above the sea");
  command.number("--pressure", flags->pressure, {0.0, 1200.0},
                 "hPa, 0 = no air, no refraction; without it from the elevation");
  command.number("--temperature", flags->temperature, {-90.0, 60.0}, "°C, for refraction");
  command.required("--time", flags->time, "YYYY-MM-DDTHH:MM[:SS][Z or ±HH:MM]");
  command.text("--zone", flags->zone, "offset or IANA name when --time has none");
  command.text("--json", flags->json, "also write it as JSON (- = print only it)");
  command.runs([flags] { return show_sun(*flags); });
}

}  // namespace hummock::cli
