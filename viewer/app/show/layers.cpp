#include "viewer/app/show/layers.h"

#include <algorithm>
#include <cmath>

#include "engine/maps/map_layers.h"
#include "viewer/app/show/day.h"

namespace hummock::viewer {
namespace {

struct Extent {
  double low = 0.0;
  double high = 0.0;
};

// The 1st and 99th hundredth, so that one odd cell does not wash out the map.
Extent extent_of(const geom::Raster& raster) {
  std::vector<float> values;
  for (const float v : raster.values)
    if (std::isfinite(v)) values.push_back(v);
  if (values.empty()) return {0.0, 1.0};
  const auto at = [&](double share) {
    const auto k = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + k, values.end());
    return static_cast<double>(values[static_cast<std::size_t>(k)]);
  };
  return {at(0.01), at(0.99)};
}

// The next 1, 2 or 5 times a power of ten at or above.
double round_up(double v) {
  if (v <= 0.0) return 1.0;
  const double power = std::pow(10.0, std::floor(std::log10(v)));
  for (const double k : {1.0, 2.0, 2.5, 5.0, 10.0})
    if (k * power >= v * (1.0 - 1e-9)) return k * power;
  return 10.0 * power;
}

void fit(LayerLook& look, const LayerInfo& info, const Extent& e, const Model& m) {
  const std::string& layer = info.name;
  const double leap = m.site.species.leap_height.value;
  if (layer == "slope") {
    look.scale = Scale::falling;
    look.low = 0.0;
    look.high = 60.0;
    look.limit = m.site.species.stand_slope.value / geom::kDegree;
    look.limit_words = "steepest it stands on";
    look.says = "Steepness of the ground and of every thing on it";
  } else if (layer == "demand") {
    look.scale = Scale::falling;
    look.low = 0.0;
    look.high = 2.0 * leap;
    look.limit = leap;
    look.limit_words = "its leap height";
    look.says = "Least leap height that gets an animal here from the living ground";
  } else if (layer == "cap") {
    look.high = round_up(e.high);
    look.low = std::min(0.0, e.low);
    look.says = "Tallest that anything may stand here, above datum";
  } else if (layer == "shade") {
    look.high = 1.0;
    look.scale = Scale::falling;
    look.says = "Share of the sun's beam stopped at the chosen time";
  } else if (info.two_sided) {
    look.scale = Scale::two_sided;
    const double most = round_up(std::max(std::abs(e.low), std::abs(e.high)));
    look.low = -most;
    look.high = most;
    if (layer == "change")
      look.says = "Ground moved against the survey: fill above, cut below zero";
  } else {
    // More is darker, but for light itself.
    if (layer != "sun_hours" && layer != "sky_view" && layer != "height")
      look.scale = Scale::falling;
    look.low = e.low >= 0.0 ? 0.0 : -round_up(-e.low);
    look.high = layer == "burrow" || layer == "sky_view" ? 1.0 : round_up(e.high);
    if (layer == "height") {
      look.low = e.low;
      look.high = std::max(e.high, e.low + 0.1);
    }
  }
}

}  // namespace

std::vector<double> round_ticks(double low, double high, int count) {
  std::vector<double> out;
  if (!(high > low)) return {low};
  const double rough = (high - low) / std::max(count, 1);
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  double step = 10.0 * power;
  for (const double k : {1.0, 2.0, 5.0})
    if (k * power >= rough) {
      step = k * power;
      break;
    }
  const double first = std::ceil(low / step - 1e-9), last = std::floor(high / step + 1e-9);
  for (int k = 0; k <= static_cast<int>(last - first); ++k) out.push_back((first + k) * step);
  return out;
}

namespace {

const LayerInfo* info_of(const std::string& name) {
  for (const LayerInfo& info : maps::layers())
    if (info.name == name) return &info;
  return nullptr;
}

}  // namespace

std::string layer_key(const Session& s) {
  std::string key = s.layer;
  const LayerInfo* info = info_of(s.layer);
  if (info == nullptr) return key;
  const sun::Date date = date_of(s.time);
  if (info->of_the_day)
    key += " " + std::to_string(date.year) + "-" + std::to_string(date.month) + "-" +
           std::to_string(date.day);
  if (info->of_the_hour) key += " " + hour_words(s.time.hour);
  return key;
}

void choose_layer(Session& s, const std::string& name) {
  s.layer = name;
  s.asked_key.clear();
  s.ask_at = 0.0;
  if (name.empty()) {
    if (s.renderer) s.renderer->set_layer(std::nullopt);
    s.redraw = true;
  }
}

void ask_for_layer(Session& s) {
  if (s.now < s.ask_at || !s.study.built() || s.study.built()->revision != s.study.asked_revision())
    return;
  const std::string at = " @" + std::to_string(s.study.built()->revision);
  if (!s.layer.empty() && s.asked_key != layer_key(s) + at) {
    s.asked_key = layer_key(s) + at;
    LayerWish wish{s.layer, s.asked_key, check_options(s), sun_now(s)};
    wish.options.date = date_of(s.time);
    s.study.paint(wish);
    return;
  }
  // The curve waits its turn: one thing at a time on the painting thread.
  const sun::Date date = date_of(s.time);
  const std::string day = std::to_string(date.month) + "-" + std::to_string(date.day) + at;
  if (s.day_key == day || s.study.painting() || s.study.checking()) return;
  s.day_key = day;
  s.study.shade_day(date, 20.0);
}

void show_layer(Session& s) {
  if (!s.renderer) return;
  const auto look = layer_look(s);
  if (!look) {
    s.renderer->set_layer(std::nullopt);
    return;
  }
  LayerPaint paint;
  paint.raster = s.study.painted()->raster;
  paint.scale = look->scale;
  paint.low = look->low;
  paint.high = look->high;
  paint.slope = s.layer == "slope";
  const auto& judged = s.study.judged();
  if (judged && s.shown.model) {
    const auto part_of = [&](int object) -> std::int32_t {
      const auto& parts = s.shown.model->object_part;
      return object >= 0 && object < static_cast<int>(parts.size())
                 ? parts[static_cast<std::size_t>(object)]
                 : -1;
    };
    if (s.layer == "demand" && judged->results.leap)
      for (const auto& row : judged->results.leap->objects)
        if (part_of(row.object) >= 0) paint.parts[part_of(row.object)] = row.required_leap_m;
    if (s.layer == "sun_hours" && judged->results.shade)
      for (const auto& row : judged->results.shade->objects)
        for (std::size_t i = 0; i < s.shown.model->site.objects.size(); ++i)
          if (s.shown.model->site.objects[i].name == row.name && part_of(static_cast<int>(i)) >= 0)
            paint.parts[part_of(static_cast<int>(i))] = row.sun_hours;
  }
  s.renderer->set_layer(std::move(paint));
}

std::optional<LayerLook> layer_look(const Session& s) {
  const auto& painted = s.study.painted();
  if (s.layer.empty() || !painted || painted->layer != s.layer || model(s) == nullptr)
    return std::nullopt;
  LayerLook look;
  const LayerInfo* info = info_of(s.layer);
  if (info == nullptr) return std::nullopt;
  look.title = info->title;
  look.unit = info->unit;
  fit(look, *info, extent_of(painted->raster), *model(s));
  if (info->of_the_hour) look.title = "Shade at " + hour_words(s.time.hour);
  look.ticks = round_ticks(look.low, look.high, 5);
  return look;
}

bool layer_current(const Session& s) {
  const auto& painted = s.study.painted();
  return painted && painted->layer == s.layer && painted->revision == s.study.asked_revision() &&
         painted->key == layer_key(s) + " @" + std::to_string(painted->revision);
}

std::optional<double> layer_value(const Session& s, Vec2 at) {
  const auto& painted = s.study.painted();
  if (s.layer.empty() || !painted || painted->layer != s.layer) return std::nullopt;
  const auto& grid = painted->raster.grid;
  const int i = static_cast<int>(std::lround((at.x - grid.x0) / grid.cell));
  const int j = static_cast<int>(std::lround((at.y - grid.y0) / grid.cell));
  if (!grid.holds(i, j)) return std::nullopt;
  const float v = painted->raster.at(i, j);
  if (!std::isfinite(v)) return std::nullopt;
  return v;
}

}  // namespace hummock::viewer
