// The year against its days, ray by ray.
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <cstring>
#include <random>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/day/day_steps.h"
#include "engine/shade/shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

Model small_yard() {
  Model m = yard(
      0, 0, 6, 5, 0.25,
      [](double x, double y) { return 0.4 * std::sin(1.3 * x) * std::cos(1.1 * y); }, 1.0);
  as_mesh(add_wall(m, "south", {-0.01, -0.01}, {6.01, -0.01}, -1, 2.4), 0.025, 0.003);
  add_wall(m, "west", {-0.01, -0.01}, {-0.01, 5.01}, -1, 1.6);
  add_solid(m, "boulder", ellipsoid({3.03, 2.02, 0.3}, {0.8, 0.6, 0.7}, 16));
  Part& crown = add_part(m, "crown", PartKind::crown, ellipsoid({4.7, 3.9, 3}, {1, 1, 1}, 16));
  crown.leaf_density = 1.1;
  crown.bare = Season{{11, 1}, {4, 1}};
  return m;
}

TEST(ShadeYear, of_a_flat_open_yard_is_the_sum_of_its_day_lengths) {
  Model m = yard(0, 0, 3, 3, 0.5);
  Settings settings;
  settings.date = {2026, 1, 1};
  settings.step_minutes = 30;
  const Year y = year(m, settings);
  double sum = 0;
  for (int d = sun::day_number({2026, 1, 1}); d <= sun::day_number({2026, 12, 31}); ++d) {
    sum += sun::rise_set(*m.site.place, sun::date_of(d)).day_length_h;
  }
  for (const float v : y.sun_hours.values) EXPECT_NEAR(v, sum, 0.02);
  EXPECT_NEAR(y.month_sun_hours[5].values[0], 16.5, 0.3);  // June
}

// Every step of every fifth day by rays, cell by cell and added up by month.
TEST(ShadeYear, is_the_sum_of_rays_at_every_step) {
  const Model m = small_yard();
  Settings settings;
  settings.date = {2026, 1, 1};
  settings.step_minutes = 60;
  const Year y = year(m, settings);
  const FastBeam fast(m);
  const std::vector<Tile> tiles = ground_tiles(m, m.ground.grid);
  std::vector<double> hours(m.ground.grid.size(), 0.0);
  for (int d = sun::day_number({2026, 1, 1}); d <= sun::day_number({2026, 12, 31}); ++d) {
    const sun::Date date = sun::date_of(d);
    for (const Step& s : day_steps(*m.site.place, date, settings.step_minutes)) {
      for (const Tile& t : tiles) {
        std::array<float, kTileNodes> b{};
        fast.rays().tile(t, sun_ray(*m.site.place, s.sun), date, b);
        for (std::size_t k = 0; k < kTileNodes; ++k) {
          if (t.inside[k] != 0) hours[t.node(m.ground.grid, k)] += b[k] * s.hours;
        }
      }
    }
  }
  double unlike = 0, all = 0, bias = 0;
  for (std::size_t n = 0; n < hours.size(); ++n) {
    if (std::isnan(y.sun_hours.values[n])) continue;
    unlike += std::abs(y.sun_hours.values[n] - hours[n]);
    bias += y.sun_hours.values[n] - hours[n];
    all += 4460.0;  // hours with the sun up
  }
  EXPECT_LT(unlike / all, y.error_bound_share);
  EXPECT_LT(std::abs(bias) / all, 0.2 * y.error_bound_share);
  RecordProperty("unlike_share", std::to_string(unlike / all));
}

TEST(ShadeYear, is_the_same_to_the_bit_on_one_thread_and_two) {
  const Model m = small_yard();
  Settings settings;
  settings.step_minutes = 60;
  std::vector<Year> years;
  for (const std::size_t threads : {1, 2}) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    years.push_back(year(m, settings));
  }
  EXPECT_EQ(0, std::memcmp(years[0].sun_hours.values.data(), years[1].sun_hours.values.data(),
                           years[0].sun_hours.values.size() * sizeof(float)));
}

TEST(ShadeYear, stops_when_told_to) {
  const std::atomic<bool> cancel{true};
  Progress progress;
  progress.cancel = &cancel;
  EXPECT_THROW(year(small_yard(), {}, progress), Cancelled);
}

}  // namespace
}  // namespace hummock::shade
