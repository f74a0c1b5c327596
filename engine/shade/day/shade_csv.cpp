#include "engine/shade/day/shade_csv.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/base/csv_field.h"
#include "engine/base/four_digits.h"

namespace hummock::shade {
namespace {

// A place's coordinate as text, one for each column or row of nodes.
template <class At>
std::vector<std::string> texts(int count, const At& at) {
  std::vector<std::string> out;
  out.reserve(static_cast<std::size_t>(count));
  for (int k = 0; k < count; ++k) out.push_back(fmt::format("{:.3f}", at(k)));
  return out;
}

// Rows of the table in blocks, so that the threads share them.
void add_cells(std::string& out, const Model& model,
               const std::vector<const geom::Raster*>& columns) {
  constexpr int kRowsAtOnce = 32;
  const geom::Raster& first = *columns.front();
  const geom::Grid& grid = first.grid;
  const auto xs = texts(grid.nx, [&](int i) { return model.to_site(grid.node(i, 0)).x; });
  const auto ys = texts(grid.ny, [&](int j) { return model.to_site(grid.node(0, j)).y; });
  std::vector<std::string> blocks(
      static_cast<std::size_t>((grid.ny + kRowsAtOnce - 1) / kRowsAtOnce));
  tbb::parallel_for(std::size_t{0}, blocks.size(), [&](std::size_t b) {
    const int from = static_cast<int>(b) * kRowsAtOnce;
    for (int j = from; j < std::min(grid.ny, from + kRowsAtOnce); ++j)
      for (int i = 0; i < grid.nx; ++i) {
        if (std::isnan(first.at(i, j))) continue;
        blocks[b] += xs[static_cast<std::size_t>(i)];
        blocks[b] += ',';
        blocks[b] += ys[static_cast<std::size_t>(j)];
        for (const geom::Raster* c : columns) {
          blocks[b] += ',';
          append_four_digits(blocks[b], c->at(i, j));
        }
        blocks[b] += '\n';
      }
  });
  std::size_t size = out.size();
  for (const std::string& block : blocks) size += block.size();
  out.reserve(size);
  for (std::string& block : blocks) {
    out += block;
    block = {};
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
