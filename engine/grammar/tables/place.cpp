// Where on Earth, where guests stand, what stands outside.
#include <date/tz.h>

#include "engine/grammar/tables.h"

namespace hummock::grammar {
namespace {

const Words kSurroundings{"building", "hedge", "wood"};

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

Value read_zone(TableCursor& table, const Row& row, const Source&) {
  const std::string zone = table.text(row.key.c_str());
  if (!is_fixed_offset(zone) && !is_known_zone(zone)) {
    table.refuse(row.key.c_str(), in_quotes(zone),
                 "an offset such as \"+01:00\" or a zone name such as \"Europe/Berlin\"");
  }
  return zone;
}

// Pairs of degrees, azimuths rising.
Value read_horizon(TableCursor& table, const Row& row, const Source&) {
  const auto pairs =
      table.pairs(row.key.c_str(), {0.0, 360.0, "degrees of azimuth"},
                  {-11.0, 90.0, "degrees above level"}, "a pair [azimuth, elevation] (degrees)");
  Points out;
  for (const auto& [azimuth, elevation] : pairs) {
    if (!out.empty() && azimuth <= out.back().x) {
      table.refuse(row.key.c_str(),
                   "azimuth " + plain_number(azimuth) + " after " + plain_number(out.back().x),
                   "azimuths that rise");
    }
    out.push_back({azimuth, elevation});
  }
  return out;
}
void set_horizon(Place& place, const Value& v) {
  for (const Vec2 p : std::get<Points>(v)) {
    place.horizon.push_back({p.x * geom::kDegree, p.y * geom::kDegree});
  }
}
Value get_horizon(const Place& place) {
  Points out;
  for (const HorizonPoint& p : place.horizon) {
    out.push_back({degrees_of(p.azimuth), degrees_of(p.elevation)});
  }
  return from(out);
}

bool has_leaves(const Surrounding& s) {
  return s.kind != kSurroundings.front();
}
void check_base(const TableCursor& table, const Surrounding& s) {
  if (s.base < s.height) return;
  table.refuse("base", plain_number(s.base), "less than the height");
}

}  // namespace

const Table& place_table() {
  static const Table table =
      table_of<Place>("where on Earth; needed for sun and shade", "a place",
                      {
                          {.key = "latitude",
                           .kind = Kind::angle,
                           .meaning = "of the site",
                           .needed = true,
                           .range = {-90.0, 90.0, "degrees north"},
                           .step = 1e-6,
                           .member = of(&Place::latitude)},
                          {.key = "longitude",
                           .kind = Kind::angle,
                           .meaning = "of the site",
                           .needed = true,
                           .range = {-180.0, 180.0, "degrees east"},
                           .step = 1e-6,
                           .member = of(&Place::longitude)},
                          {.key = "elevation",
                           .kind = Kind::length,
                           .meaning = "above sea level",
                           .range = {-500.0, 9000.0, "m"},
                           .member = of(&Place::elevation)},
                          {.key = "time_zone",
                           .kind = Kind::text,
                           .meaning = "a fixed offset up to 14 h, or an IANA zone name",
                           .needed = true,
                           .example = "\"+01:00\" or \"Europe/Berlin\"",
                           .member = of(&Place::time_zone),
                           .read = read_zone},
                          {.key = "grid_north",
                           .kind = Kind::angle,
                           .meaning = "from true north to the site's +y, clockwise",
                           .range = {-360.0, 360.0, "degrees clockwise"},
                           .member = of(&Place::grid_north)},
                          {.key = "pressure",
                           .kind = Kind::number,
                           .meaning = "of the air, for refraction",
                           .range = {300.0, 1100.0, "hPa"},
                           .absent = "from elevation",
                           .member = of(&Place::pressure)},
                          {.key = "temperature",
                           .kind = Kind::number,
                           .meaning = "yearly mean, for refraction",
                           .range = {-60.0, 60.0, "°C"},
                           .member = of(&Place::temperature)},
                          {.key = "freezes",
                           .kind = Kind::flag,
                           .meaning = "standing water bears the animal on ice in winter",
                           .absent = "by the climate file; without one, not known",
                           .member = of(&Place::freezes)},
                          {.key = "horizon",
                           .kind = Kind::pairs,
                           .meaning = "hills around, azimuths from true north rising",
                           .absent = "none",
                           .example = "list of [azimuth 0 … 360, elevation -11 … 90] (degrees)",
                           .member = by<Place>(set_horizon, get_horizon),
                           .read = read_horizon},
                      });
  return table;
}

const Table& viewing_table() {
  static const Table table =
      table_of<Viewing>("where guests stand", "a viewing place",
                        {
                            name_row(&Viewing::name, "viewing"),
                            {.key = "edge",
                             .kind = Kind::count,
                             .meaning = "the edge of the outline guests look over or through",
                             .needed = true,
                             .range = kEdges,
                             .example = "edge number",
                             .group = "Place",
                             .member = of(&Viewing::edge)},
                            {.key = "from",
                             .kind = Kind::length,
                             .meaning = "along the edge from its first corner",
                             .needed = true,
                             .range = kAlongEdge,
                             .group = "Place",
                             .member = of(&Viewing::from)},
                            {.key = "width",
                             .kind = Kind::length,
                             .meaning = "along the edge",
                             .needed = true,
                             .range = {0.1, 1e6, "m"},
                             .group = "Place",
                             .member = of(&Viewing::width)},
                            {.key = "sill",
                             .kind = Kind::length,
                             .meaning = "lower edge of what one sees through",
                             .range = {0.0, 30.0, "m above ground"},
                             .member = of(&Viewing::sill)},
                            {.key = "eye_height",
                             .kind = Kind::length,
                             .meaning = "of the guests, above the ground where they stand",
                             .range = {0.2, 30.0, "m above ground"},
                             .member = of(&Viewing::eye_height)},
                            {.key = "stand_off",
                             .kind = Kind::length,
                             .meaning = "outside the boundary",
                             .range = {0.0, 200.0, "m outside"},
                             .member = of(&Viewing::stand_off)},
                        });
  return table;
}

const Table& surrounding_table() {
  static const Table table = [] {
    Table t = table_of<Surrounding>("what stands outside, for shade and sight", "",
                                    {
                                        name_row(&Surrounding::name, "surrounding"),
                                        {.key = "kind",
                                         .kind = Kind::choice,
                                         .meaning = "what it is",
                                         .words = kSurroundings,
                                         .group = "What it is",
                                         .member = of(&Surrounding::kind)},
                                        outline_row(&Surrounding::outline, "where it stands"),
                                        {.key = "height",
                                         .kind = Kind::length,
                                         .meaning = "above the ground there",
                                         .needed = true,
                                         .range = {0.0, 1000.0, "m", true},
                                         .member = of(&Surrounding::height)},
                                        {.key = "base",
                                         .kind = Kind::length,
                                         .meaning = "its underside, less than the height",
                                         .range = {0.0, 1000.0, "m above ground"},
                                         .member = of(&Surrounding::base)},
                                        {.key = "leaf_area_density",
                                         .kind = Kind::number,
                                         .meaning = "leaf area in a cubic metre",
                                         .range = {0.0, 20.0, "m²/m³"},
                                         .only = "hedge, wood",
                                         .when = when<Surrounding>(has_leaves),
                                         .absent = "0, opaque",
                                         .group = "Leaves",
                                         .member = of(&Surrounding::leaf_area_density)},
                                        bare_row(&Surrounding::bare),
                                    });
    t.rows.back().only = "hedge, wood";
    t.rows.back().when = when<Surrounding>(has_leaves);
    t.a = [](const void* s) { return "a " + static_cast<const Surrounding*>(s)->kind; };
    t.check = check<Surrounding>(check_base);
    return t;
  }();
  return table;
}

}  // namespace hummock::grammar
