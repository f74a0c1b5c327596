#include "engine/shade/shade_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/sun/sun_json.h"

namespace hummock::shade {
namespace {

nlohmann::json spot(const Extreme& s, const Model& model) {
  const Vec2 at = model.to_site(s.at);
  return {{"at", {at.x, at.y}}, {"hours", s.hours}};
}

nlohmann::json clock_or_null(const Model& model, const std::optional<sun::Instant>& when) {
  if (!when || !model.site.place) return nullptr;
  return sun::clock(*model.site.place, *when);
}

struct Extent {
  double min = 0, mean = 0, max = 0;
};
Extent extent(const geom::Raster& r) {
  Extent e;
  std::size_t n = 0;
  for (const float v : r.values) {
    if (std::isnan(v)) continue;
    e.min = n == 0 ? v : std::min<double>(e.min, v);
    e.max = n == 0 ? v : std::max<double>(e.max, v);
    e.mean += v;
    ++n;
  }
  if (n > 0) e.mean /= static_cast<double>(n);
  return e;
}

std::string at_words(Vec2 local, const Model& model) {
  const Vec2 p = model.to_site(local);
  return fmt::format("({:.1f}, {:.1f})", p.x, p.y);
}

// What tells of the land beyond the modelled ground.
nlohmann::json hills_from(const Model& model) {
  auto from = nlohmann::json::array();
  if (model.site.place && !model.site.place->horizon.empty()) from.push_back("place.horizon");
  if (model.beyond) from.push_back("ground.raster");
  return from;
}

}  // namespace

nlohmann::json to_json(const Day& day, const Model& model) {
  nlohmann::json j;
  j["date"] = sun::text(day.date);
  j["day"] = sun::to_string(day.sun.kind);
  j["sunrise"] = clock_or_null(model, day.sun.sunrise);
  j["transit"] = clock_or_null(model, day.sun.transit);
  j["sunset"] = clock_or_null(model, day.sun.sunset);
  j["day_length_h"] = day.sun.day_length_h;
  j["times"] = day.time_labels;
  if (model.site.place) {
    const Place& place = *model.site.place;
    j["times_iso"] = nlohmann::json::array();
    for (const sun::Position& at : day.times) j["times_iso"].push_back(sun::iso(place, at.when));
    const auto iso = [&](const std::optional<sun::Instant>& when) {
      return when ? nlohmann::json(sun::iso(place, *when)) : nlohmann::json();
    };
    j["sunrise_iso"] = iso(day.sun.sunrise);
    j["transit_iso"] = iso(day.sun.transit);
    j["hottest_at_iso"] = iso(day.hottest_when);
    j["sunset_iso"] = iso(day.sun.sunset);
    j["hot_hours"] = {{"by_the_sun", "11 to 15 h"},
                      {"clock", day.hot_clock},
                      {"from_iso", iso(day.hot_from)},
                      {"to_iso", iso(day.hot_to)}};
  }
  j["hours_each"] = day.hours;
  j["shaded_share"] = day.shaded_share;
  j["shaded_m2_per_animal"] = day.shaded_m2_per_animal;
  j["hottest_shade_m2_per_animal"] = day.hottest_shade_m2_per_animal;
  if (day.hottest_at.empty()) {
    j["hottest_at"] = nullptr;
  } else {
    j["hottest_at"] = day.hottest_at;
  }
  if (!day.hot_days.empty()) {
    j["hottest_on"] = sun::text(day.hottest_on.value_or(day.date));
    j["hot_days"] = nlohmann::json::array();
    for (const HotDay& hot : day.hot_days)
      j["hot_days"].push_back({{"date", sun::text(hot.date)},
                               {"hottest_shade_m2_per_animal", hot.shade_m2_per_animal},
                               {"hottest_at", hot.at}});
  }
  j["sun_hours"] = {
      {"min", day.sun_hours_min}, {"mean", day.sun_hours_mean}, {"max", day.sun_hours_max}};
  j["sunniest"] = spot(day.sunniest, model);
  j["coolest"] = spot(day.coolest, model);
  j["irradiation_kwh_m2"] = {{"mean", day.irradiation_mean_kwh_m2},
                             {"open", day.open_irradiation_kwh_m2}};
  j["sky_view_mean"] = day.sky_view_mean;
  j["hills_from"] = hills_from(model);
  j["objects"] = nlohmann::json::array();
  for (const ObjectRow& o : day.objects) {
    const Vec3 at = model.to_site(o.at);
    j["objects"].push_back(
        {{"name", o.name}, {"at", {at.x, at.y, at.z}}, {"sun_hours", o.sun_hours}});
  }
  return j;
}

nlohmann::json to_json(const Year& year, const Model&) {
  nlohmann::json j;
  const Extent all = extent(year.sun_hours);
  j["year"] = year.year;
  j["sun_hours"] = {{"min", all.min}, {"mean", all.mean}, {"max", all.max}};
  j["month_sun_hours_mean"] = nlohmann::json::array();
  for (const geom::Raster& month : year.month_sun_hours) {
    j["month_sun_hours_mean"].push_back(extent(month).mean);
  }
  j["error_bound_share"] = year.error_bound_share;
  j["sun_positions"] = year.sun_positions;
  j["suns_looked_at"] = year.suns_looked_at;
  return j;
}

void add_figures(const Day& day, const Model& model, Figures& figures) {
  const auto put = [&](const char* key, double value, std::string where) {
    Figure f;
    if (std::isfinite(value)) f.value = value;
    f.where = std::move(where);
    figures[std::string("shade.") + key] = f;
  };
  const std::string date = sun::text(day.date);
  const std::string hottest = day.hottest_on ? sun::text(*day.hottest_on) : date;
  put("hottest_shade_m2_per_animal", day.hottest_shade_m2_per_animal,
      day.hottest_at.empty() ? hottest : hottest + " " + day.hottest_at);
  put("sun_hours_min", day.sun_hours_min, date);
  put("sun_hours_mean", day.sun_hours_mean, date);
  put("sun_hours_max", day.sun_hours_max, date + " at " + at_words(day.sunniest.at, model));
  put("irradiation_kwh_m2", day.irradiation_mean_kwh_m2, date);
  put("sky_view_mean", day.sky_view_mean, "");
  double least = 1.0;
  std::size_t when = 0;
  for (std::size_t k = 0; k < day.shaded_share.size(); ++k) {
    if (day.shaded_share[k] < least) {
      least = day.shaded_share[k];
      when = k;
    }
  }
  put("shaded_share_least", least,
      day.time_labels.empty() ? date : date + " " + day.time_labels[when]);
}

}  // namespace hummock::shade
