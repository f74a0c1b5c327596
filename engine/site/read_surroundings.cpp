// Place, guests, houses and what stands outside.
#include <date/tz.h>

#include <string>

#include "engine/site/site_tables.h"

namespace hummock {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// +01:00, -09:30; as far as +14:00.
bool is_fixed_offset(const std::string& zone) {
  if (zone.size() != 6 || (zone[0] != '+' && zone[0] != '-') || zone[3] != ':') return false;
  if (!is_digit(zone[1]) || !is_digit(zone[2]) || !is_digit(zone[4]) || !is_digit(zone[5])) {
    return false;
  }
  const int hours = (zone[1] - '0') * 10 + (zone[2] - '0');
  const int minutes = (zone[4] - '0') * 10 + (zone[5] - '0');
  return minutes < 60 && hours * 60 + minutes <= 14 * 60;
}

bool has_zone_syntax(const std::string& zone) {
  if (zone.empty() || zone.size() > 64) return false;
  for (const char c : zone) {
    const bool letter = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    if (!letter && !is_digit(c) && c != '/' && c != '_' && c != '-' && c != '+') return false;
  }
  return (zone[0] >= 'A' && zone[0] <= 'Z') || (zone[0] >= 'a' && zone[0] <= 'z');
}

// With no zone data on the machine a well-formed name is let through; the sun then says so.
bool is_known_zone(const std::string& zone) {
  if (!has_zone_syntax(zone)) return false;
  try {
    date::get_tzdb();
  } catch (const std::exception&) {
    return true;
  }
  try {
    return date::locate_zone(zone) != nullptr;
  } catch (const std::exception&) {
    return false;
  }
}

void read_horizon(TableCursor& table, Place& out) {
  if (!table.has("horizon")) return;
  const auto pairs =
      table.pairs("horizon", {0.0, 360.0, "degrees of azimuth"},
                  {-11.0, 90.0, "degrees above level"}, "a pair [azimuth, elevation] (degrees)");
  for (const auto& [azimuth, elevation] : pairs) {
    if (!out.horizon.empty() && azimuth * geom::kDegree <= out.horizon.back().azimuth) {
      table.refuse("horizon",
                   "azimuth " + plain_number(azimuth) + " after " +
                       plain_number(out.horizon.back().azimuth / geom::kDegree),
                   "azimuths that rise");
    }
    out.horizon.push_back({azimuth * geom::kDegree, elevation * geom::kDegree});
  }
}

}  // namespace

Place read_place(TableCursor table) {
  Place out;
  out.where = table.where();
  out.latitude = table.angle("latitude", {-90.0, 90.0, "degrees north"});
  out.longitude = table.angle("longitude", {-180.0, 180.0, "degrees east"});
  out.elevation = table.number("elevation", {-500.0, 9000.0, "m"}, out.elevation);
  out.time_zone = table.text("time_zone");
  if (!is_fixed_offset(out.time_zone) && !is_known_zone(out.time_zone)) {
    table.refuse("time_zone", in_quotes(out.time_zone),
                 "an offset such as \"+01:00\" or a zone name such as \"Europe/Berlin\"");
  }
  out.grid_north = table.angle("grid_north", {-360.0, 360.0, "degrees clockwise"}, out.grid_north);
  out.pressure = table.number("pressure", {300.0, 1100.0, "hPa"}, out.pressure);
  out.temperature = table.number("temperature", {-60.0, 60.0, "°C"}, out.temperature);
  read_horizon(table, out);
  table.done("a place");
  return out;
}

Viewing read_viewing(TableCursor table, int number) {
  Viewing out;
  out.where = table.where();
  out.name = read_name(table, "viewing", number);
  out.edge = table.integer("edge", 0, 100000);
  out.from = table.number("from", {0.0, 1e6, "m along the edge"});
  out.width = table.number("width", {0.1, 1e6, "m"});
  out.sill = table.number("sill", {0.0, 30.0, "m above ground"}, out.sill);
  out.eye_height = table.number("eye_height", {0.2, 30.0, "m above ground"}, out.eye_height);
  out.stand_off = table.number("stand_off", {0.0, 200.0, "m outside"}, out.stand_off);
  table.done("a viewing place");
  return out;
}

House read_house(TableCursor table, int number) {
  House out;
  out.where = table.where();
  out.name = read_name(table, "house", number);
  out.outline = table.polygon("outline");
  out.height = table.number("height", {0.1, 50.0, "m"});
  if (table.has("temperature")) {
    const auto held = table.numbers("temperature", 2, {-40.0, 60.0, "°C"});
    if (held[0] > held[1]) {
      table.refuse("temperature", plain_number(held[0]) + " above " + plain_number(held[1]),
                   "[low, high] with low <= high (°C)");
    }
    out.temperature = {held[0], held[1]};
  }
  if (auto door = table.table("door")) {
    const std::string name = door->text("name", "door");
    out.door = read_hole(*door, name, "a door");
  }
  for (TableCursor one : table.tables("vents")) {
    const std::string name = one.text("name", "vent " + std::to_string(out.vents.size() + 1));
    out.vents.push_back(read_hole(one, name, "a vent"));
  }
  out.hides = table.integer("hides", 0, 1000, out.hides);
  out.climb_places = table.integer("climb_places", 0, 1000, out.climb_places);
  if (auto footing = table.table("footing")) out.footing = read_footing(*footing);
  out.solid_floor = table.choice("floor", {"earth", "solid"}, "earth") == "solid";
  table.done("a house");
  return out;
}

Surrounding read_surrounding(TableCursor table, int number) {
  Surrounding out;
  out.where = table.where();
  out.name = read_name(table, "surrounding", number);
  out.kind = table.choice("kind", {"building", "hedge", "wood"}, out.kind);
  out.outline = table.polygon("outline");
  out.height = table.number("height", {0.0, 1000.0, "m", true});
  out.base = table.number("base", {0.0, 1000.0, "m above ground"}, out.base);
  if (out.kind != "building") {
    out.leaf_area_density =
        table.number("leaf_area_density", {0.0, 20.0, "m²/m³"}, out.leaf_area_density);
    out.bare = read_season(table, "bare");
  }
  if (out.base >= out.height) {
    table.refuse("base", plain_number(out.base), "less than the height");
  }
  table.done("a " + out.kind);
  return out;
}

SitingWeights read_siting(TableCursor table) {
  SitingWeights out;
  const Range weight{0.0, 1000.0, "weight"};
  out.shade = table.number("shade", weight, out.shade);
  out.soil = table.number("soil", weight, out.soil);
  out.slope = table.number("slope", weight, out.slope);
  out.ponding = table.number("ponding", weight, out.ponding);
  out.fence = table.number("fence", weight, out.fence);
  out.count = table.integer("count", 1, 50, out.count);
  out.spacing = table.number("spacing", {0.0, 1000.0, "m"}, out.spacing);
  if (out.shade + out.soil + out.slope + out.ponding + out.fence <= 0.0) {
    table.refuse("shade", "no weight above 0", "at least one weight above 0");
  }
  table.done("the siting weights");
  return out;
}

}  // namespace hummock
