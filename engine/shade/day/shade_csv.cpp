#include "engine/shade/day/shade_csv.h"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "engine/base/csv_field.h"

namespace hummock::shade {
namespace {

void add_cells(std::string& out, const Model& model,
               const std::vector<const geom::Raster*>& columns) {
  const geom::Raster& first = *columns.front();
  auto to = std::back_inserter(out);
  for (int j = 0; j < first.grid.ny; ++j) {
    for (int i = 0; i < first.grid.nx; ++i) {
      if (std::isnan(first.at(i, j))) continue;
      const Vec2 p = model.to_site(first.grid.node(i, j));
      fmt::format_to(to, "{:.3f},{:.3f}", p.x, p.y);
      for (const geom::Raster* c : columns) fmt::format_to(to, ",{:.4g}", c->at(i, j));
      out += '\n';
    }
  }
}

}  // namespace

std::string times_csv(const Day& day, const Model& model) {
  std::string out = "time,azimuth_deg,elevation_deg,hours,shaded_share,shaded_m2_per_animal\n";
  for (std::size_t k = 0; k < day.times.size(); ++k) {
    const sun::Position& p = day.times[k];
    fmt::format_to(std::back_inserter(out), "{},{:.3f},{:.3f},{:.5f},{:.5f},{:.4f}\n",
                   model.site.place ? sun::clock(*model.site.place, p.when) : day.time_labels[k],
                   p.azimuth / geom::kDegree, p.elevation / geom::kDegree, day.hours[k],
                   day.shaded_share[k], day.shaded_m2_per_animal[k]);
  }
  return out;
}

std::string cells_csv(const Day& day, const Model& model) {
  std::string out =
      "x_m,y_m,sun_hours,longest_shade_h,hot_shade_share,irradiation_kwh_m2,direct_kwh_m2,sky_view";
  std::vector<const geom::Raster*> columns{&day.sun_hours,          &day.longest_shade_h,
                                           &day.midday_shade_share, &day.irradiation_kwh_m2,
                                           &day.direct_kwh_m2,      &day.sky_view};
  for (std::size_t h = 0; h < day.hour_of_clock.size(); ++h) {
    fmt::format_to(std::back_inserter(out), ",shade_share_{:02}h", day.hour_of_clock[h]);
    columns.push_back(&day.hour_shade_share[h]);
  }
  out += '\n';
  add_cells(out, model, columns);
  return out;
}

std::string objects_csv(const Day& day, const Model& model) {
  std::string out = "name,x_m,y_m,z_m,sun_hours\n";
  for (const ObjectRow& o : day.objects) {
    const Vec3 p = model.to_site(o.at);
    fmt::format_to(std::back_inserter(out), "{},{:.3f},{:.3f},{:.3f},{:.3f}\n", csv_field(o.name),
                   p.x, p.y, p.z, o.sun_hours);
  }
  return out;
}

std::string year_csv(const Year& year, const Model& model) {
  std::string out = "x_m,y_m,sun_hours_year";
  std::vector<const geom::Raster*> columns{&year.sun_hours};
  for (std::size_t m = 0; m < year.month_sun_hours.size(); ++m) {
    fmt::format_to(std::back_inserter(out), ",hours_a_day_{:02}", m + 1);
    columns.push_back(&year.month_sun_hours[m]);
  }
  out += '\n';
  add_cells(out, model, columns);
  return out;
}

}  // namespace hummock::shade
