// A day's table and its extremes, worked out by all threads, against the plain way.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "engine/base/four_digits.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/day/shade_csv.h"
#include "geometry/plan/polygon.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

// More rows than are made at once, some without a place.
TEST(DayTables, cells_stand_row_by_row) {
  const Model m = yard(0, 0, 4, 4, 0.5);
  const geom::Grid grid{0.0, 0.0, 0.1, 3, 300};
  std::mt19937 engine(3);
  std::uniform_real_distribution<float> any(-2.0F, 20.0F);
  Day day;
  const std::vector<geom::Raster*> layers{&day.sun_hours,          &day.longest_shade_h,
                                          &day.midday_shade_share, &day.irradiation_kwh_m2,
                                          &day.direct_kwh_m2,      &day.sky_view};
  for (geom::Raster* r : layers) {
    *r = geom::Raster(grid);
    for (float& v : r->values) v = any(engine);
  }
  for (int n = 0; n < 450; ++n)
    day.sun_hours.values[static_cast<std::size_t>(2 * n)] = std::numeric_limits<float>::quiet_NaN();
  std::string plain;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      if (std::isnan(day.sun_hours.at(i, j))) continue;
      const Vec2 at = m.to_site(grid.node(i, j));
      plain += fmt::format("{:.3f},{:.3f}", at.x, at.y);
      for (const geom::Raster* r : layers) {
        plain += ',';
        append_four_digits(plain, r->at(i, j));
      }
      plain += '\n';
    }
  const std::string table = cells_csv(day, m);
  EXPECT_EQ(table.substr(table.find('\n') + 1), plain);
}

// The first, row by row, of those farthest from the outline within the tie.
Vec2 farthest_of_best(const Model& m, const geom::Raster& by, double sign, double tie) {
  const LyingPlaces lying = lying_places(m, by.grid);
  const auto places = [&](const auto& work) {
    for (int j = 0; j < by.grid.ny; ++j)
      for (int i = 0; i < by.grid.nx; ++i)
        if (lying.node[by.grid.index(i, j)] != 0 && !std::isnan(by.at(i, j)))
          work(sign * by.at(i, j), by.grid.node(i, j));
  };
  double best = -1e300, off = -1.0;
  places([&](double value, Vec2) { best = std::max(best, value); });
  Vec2 spot;
  places([&](double value, Vec2 at) {
    const double d = distance_to_edges(m.outline, at);
    if (value < best - tie || d <= off) return;
    off = d;
    spot = at;
  });
  return spot;
}

TEST(DayTables, extremes_are_the_first_of_those_farthest_from_the_fence) {
  std::mt19937 engine(8);
  std::uniform_real_distribution<> in(-1.0, 1.0);
  for (int turn = 0; turn < 4; ++turn) {
    const double x = in(engine), y = in(engine);
    const Model m = yard(0, 0, 6, 5, 0.25, [&](double a, double b) {
      return 0.4 * std::sin(x * a) * std::sin(y * b);
    });
    Settings settings;
    settings.step_minutes = 60.0;
    const Day day = analyse(m, settings);
    EXPECT_EQ(day.sunniest.at, farthest_of_best(m, day.sun_hours, 1.0, 0.01)) << turn;
    EXPECT_EQ(day.coolest.at, farthest_of_best(m, day.irradiation_kwh_m2, -1.0, 0.001)) << turn;
  }
}

}  // namespace
}  // namespace hummock::shade
