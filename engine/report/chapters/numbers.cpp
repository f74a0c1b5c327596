#include "engine/report/chapters/numbers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace hummock::report {

std::string number(double value) {
  if (!std::isfinite(value)) return "–";
  const double size = std::abs(value);
  const int decimals = size < 0.9995 ? 3 : (size < 9.995 ? 2 : (size < 999.5 ? 1 : 0));
  std::string text = fmt::format("{:.{}f}", value, decimals);
  // No minus before nothing.
  if (text.find_first_not_of("-0.") == std::string::npos) text = value == 0.0 ? "0" : "0.000";
  if (text[0] == '-') text = "−" + text.substr(1);
  return text;
}

std::string number(const std::optional<double>& value) {
  return value ? number(*value) : "–";
}

Cell cell(double value) {
  Cell made;
  made.text = number(value);
  if (std::isfinite(value)) made.number = value;
  return made;
}

Cell cell(const std::optional<double>& value) {
  return value ? cell(*value) : Cell{"–", std::nullopt, Mark::none};
}

std::string place(const Model& model, Vec2 at) {
  const Vec2 p = model.to_site(at);
  return fmt::format("({:.2f}, {:.2f})", p.x, p.y);
}

std::string place(const Model& model, Vec3 at) {
  return place(model, geom::xy(at));
}

namespace {

using Pair = std::pair<const char*, const char*>;

// Longest endings first.
constexpr auto kUnits = std::to_array<Pair>({{"_m2_per_animal", "m² per animal"},
                                             {"_kwh_m2", "kWh/m²"},
                                             {"_per_animal", "per animal"},
                                             {"_share", "share"},
                                             {"_deg", "°"},
                                             {"_m3", "m³"},
                                             {"_m2", "m²"},
                                             {"_m", "m"},
                                             {"_h", "h"},
                                             {"_c", "°C"},
                                             {"_t", "t"},
                                             {"_hours_min", "h"},
                                             {"_hours_mean", "h"},
                                             {"_hours_max", "h"}});

// Keys whose own words say too little.
constexpr auto kPhrases = std::to_array<Pair>(
    {{"leap.margin", "margin of the leap: effort of the easiest way out ÷ leap height"},
     {"leap.escape_demand_m", "leap that the easiest way out needs"},
     {"leap.ways_out", "things from which the animal leaves"},
     {"dig.least_length_m", "shortest tunnel under the barrier"},
     {"dig.least_depth_m", "shallowest tunnel under the barrier"},
     {"openings.largest_m", "largest ball that passes the barrier"},
     {"entry.gates_short", "gates with a fault"},
     {"relief.sa_m", "mean relief Sa about the sloping mean plane"},
     {"relief.flat_share", "share of the ground flatter than 5°"},
     {"relief.mean_slope_deg", "mean slope"},
     {"relief.range_m", "highest less lowest ground"},
     {"relief.rise_count", "rises of the ground"},
     {"shade.hottest_shade_m2_per_animal", "least shade for each animal, 11–15 h by the sun"},
     {"shade.sun_hours_max", "hours of sun at the sunniest spot"},
     {"shade.sun_hours_mean", "hours of sun, mean over the ground"},
     {"sight.seen_share", "share of the usable ground that guests see"},
     {"sight.unseen_area_m2", "usable ground that no guest sees"},
     {"space.guest_view_share", "share of the boundary given to guests"},
     {"space.largest_circle_radius_m", "radius of the largest circle inside"},
     {"water.deepest_m", "deepest water"},
     {"water.ponding_m", "deepest pond that rain leaves"},
     {"burrows.drawn_least_shade_share", "least share of 11–15 h in shade at a drawn burrow"}});

bool ends_with(const std::string& text, const std::string& ending) {
  return text.size() > ending.size() &&
         text.compare(text.size() - ending.size(), ending.size(), ending) == 0;
}

std::string unit_of(const std::string& key) {
  for (const auto& [ending, unit] : kUnits) {
    if (ends_with(key, ending)) return unit;
  }
  return "";
}

}  // namespace

KeyWords key_words(const std::string& key) {
  KeyWords made;
  made.unit = unit_of(key);
  if (made.unit == "share") made.unit = "of 1";
  for (const auto& [known, words] : kPhrases) {
    if (key == known) {
      made.words = words;
      return made;
    }
  }
  std::string name = key.substr(key.find('.') == std::string::npos ? 0 : key.find('.') + 1);
  for (const auto& [ending, unit] : kUnits) {
    if (ends_with(name, ending) && ending[1] != 'h') {
      name.resize(name.size() - std::string(ending).size());
      break;
    }
  }
  std::replace(name.begin(), name.end(), '_', ' ');
  made.words = name;
  return made;
}

std::string figure_words(const Sourced<double>& figure) {
  const std::string article =
      figure.evidence == "anecdote" || figure.evidence == "assumed" ? "an" : "a";
  const std::string evidence = figure.evidence == "biomechanics" ? "from biomechanics"
                               : figure.evidence == "assumed"    ? "assumed"
                               : figure.evidence.empty()         ? "evidence not stated"
                                                                 : article + " " + figure.evidence;
  const std::string measured = figure.measures.empty() ? "" : " (" + figure.measures + ")";
  return fmt::format("{:.2f} m{}, {}", figure.value, measured, evidence);
}

}  // namespace hummock::report
