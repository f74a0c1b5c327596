#include "engine/shade/settings.h"

#include <fmt/format.h>

#include <cmath>

namespace hummock::shade {
namespace {

constexpr double kMostNodes = 4e8;  // 1.6 GB a layer

[[noreturn]] void refuse(const char* key, const std::string& found, const char* allowed) {
  throw InputError({"", 0, key}, found, allowed);
}

}  // namespace

const Place& check_settings(const Model& model, const Settings& s) {
  if (!model.site.place) {
    throw InputError({model.site.file.string(), 0, "place"}, "no [place]",
                     "a table with latitude, longitude and time_zone: sun and shade need it");
  }
  sun::check_place(*model.site.place);
  if (!(s.step_minutes > 0.0 && s.step_minutes <= 120.0)) {
    refuse("step", fmt::format("{}", s.step_minutes), "minutes, more than 0 and at most 120");
  }
  if (!(s.cell == 0.0 || s.cell > 0.0) || !std::isfinite(s.cell)) {
    refuse("cell", fmt::format("{}", s.cell), "metres, 0 (the ground's own) or more");
  }
  const geom::Grid& g = model.ground.grid;
  if (s.cell > 0.0 && (g.x_max() - g.x0) / s.cell * ((g.y_max() - g.y0) / s.cell) > kMostNodes) {
    refuse("cell", fmt::format("{}", s.cell), "a cell that makes at most 400 million of them");
  }
  if (!(s.shaded_below >= 0.0 && s.shaded_below <= 1.0)) {
    refuse("shaded_below", fmt::format("{}", s.shaded_below), "a share from 0 to 1");
  }
  sun::parse_date(sun::text(s.date), {"", 0, "date"});
  return *model.site.place;
}

}  // namespace hummock::shade
