// A year on the grid of suns against the year of every step.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/model/model.h"
#include "engine/shade/shade.h"
#include "engine/shade/year/sun_grid.h"
#include "engine/site/read_site.h"
#include "tests/shade/yards.h"
#include "tests/shade_year/boxes_and_crowns.h"
#include "tests/support/paths.h"

namespace hummock::shade {
namespace {

Place place_at(double latitude_deg) {
  Place place;
  place.latitude = latitude_deg * geom::kDegree;
  place.time_zone = "+00:00";
  return place;
}

TEST(SunGrid, turns_the_sky_there_and_back) {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> any(0.0, 1.0);
  for (int k = 0; k < 2000; ++k) {
    const double latitude = (any(random) - 0.5) * geom::kPi;
    const Horizontal at{any(random) * 2.0 * geom::kPi, any(random) * 1.57};
    const Horizontal back = horizontal(equatorial(at, latitude), latitude);
    EXPECT_NEAR(back.elevation, at.elevation, 1e-7);
    EXPECT_NEAR(std::remainder(back.azimuth - at.azimuth, 2.0 * geom::kPi) * std::cos(at.elevation),
                0.0, 1e-7);
  }
}

// On the equator at an equinox's noon the sun is overhead; six hours later due west.
TEST(SunGrid, knows_the_sky_of_the_equator) {
  EXPECT_NEAR(horizontal({0.0, 0.0}, 0.0).elevation, geom::kPi / 2.0, 1e-12);
  const Horizontal west = horizontal({0.0, geom::kPi / 2.0}, 0.3);
  EXPECT_NEAR(west.azimuth, 1.5 * geom::kPi, 1e-12);
  EXPECT_NEAR(west.elevation, 0.0, 1e-12);
  EXPECT_NEAR(horizontal({0.1, 0.0}, 0.9).elevation, geom::kPi / 2.0 - 0.8, 1e-12);
}

YearSuns suns_at(const Place& place, double minutes, bool every_step) {
  Model m = yard(0, 0, 2, 2, 1.0);
  m.site.place = place;
  return year_suns(FastBeam(m), place, 2026, minutes, every_step);
}

// Of every month, and every sun no farther from a step's than the grid is wide.
TEST(SunGrid, keeps_the_hours_of_every_month) {
  for (const double latitude : {51.0, -33.0, 0.0, 68.0, 78.2, -90.0, 23.4}) {
    const Place place = place_at(latitude);
    const YearSuns steps = suns_at(place, 10.0, true), grid = suns_at(place, 10.0, false);
    EXPECT_EQ(steps.steps, grid.steps);
    EXPECT_LT(grid.suns.size(), steps.suns.size() / 2) << latitude;
    std::array<double, 12> at_steps{}, on_grid{};
    for (const YearSun& s : steps.suns)
      for (const SunHours& h : s.hours) at_steps[h.month] += h.hours;
    for (const YearSun& s : grid.suns) {
      EXPECT_TRUE(s.ray.up);
      for (const SunHours& h : s.hours) on_grid[h.month] += h.hours;
    }
    for (std::size_t m = 0; m < 12; ++m) EXPECT_NEAR(on_grid[m], at_steps[m], 1e-6) << latitude;
  }
}

// The hours' mean direction: what is split between two rows and four suns is split by nearness.
TEST(SunGrid, leaves_the_middle_of_the_hours_where_it_was) {
  const Place place = place_at(51.0);
  Vec3 at_steps, on_grid;
  double hours = 0.0;
  for (const YearSun& s : suns_at(place, 10.0, true).suns) {
    at_steps = at_steps + s.ray.towards * s.hours[0].hours;
    hours += s.hours[0].hours;
  }
  for (const YearSun& s : suns_at(place, 10.0, false).suns)
    for (const SunHours& h : s.hours) on_grid = on_grid + s.ray.towards * h.hours;
  EXPECT_LT(length(at_steps - on_grid) / hours, 0.05 * geom::kDegree);
}

TEST(SunGrid, leaves_few_steps_as_they_are) {
  const YearSuns hourly = suns_at(place_at(51.0), 60.0, false);
  EXPECT_EQ(hourly.suns.size(), suns_at(place_at(51.0), 60.0, true).suns.size());
}

struct Unlike {
  double told = 0;
  double mean = 0, bias = 0, most = 0, most_of_month = 0;  // h; h a day
};

Unlike unlike(const Model& m, double cell) {
  Settings settings;
  settings.cell = cell;
  const Year grid = year(m, settings);
  settings.every_step = true;
  const Year steps = year(m, settings);
  EXPECT_LT(grid.suns_looked_at, steps.suns_looked_at / 2);
  Unlike u;
  u.told = grid.error_bound_share;
  double nodes = 0;
  for (std::size_t n = 0; n < steps.sun_hours.values.size(); ++n) {
    EXPECT_EQ(std::isnan(grid.sun_hours.values[n]), std::isnan(steps.sun_hours.values[n]));
    if (std::isnan(steps.sun_hours.values[n])) continue;
    const double off = grid.sun_hours.values[n] - steps.sun_hours.values[n];
    nodes += 1;
    u.bias += off;
    u.mean += std::abs(off);
    u.most = std::max(u.most, std::abs(off));
    for (std::size_t k = 0; k < 12; ++k)
      u.most_of_month = std::max(
          u.most_of_month,
          std::abs(double{grid.month_sun_hours[k].values[n]} - steps.month_sun_hours[k].values[n]));
  }
  u.bias /= nodes;
  u.mean /= nodes;
  return u;
}

// Half of what the year tells of itself on the mean, as a share of the hours with the sun up; at
// one node the sun's own breadth, 0.53° or 2.1 minutes, at dawn and dusk of every day: 26 h.
constexpr double kHours = 4460.0, kMean = 0.001 * kHours, kMost = 26.0, kMostOfMonth = 0.25;

void expect_like(const Unlike& u) {
  EXPECT_LT(u.mean, kMean);
  EXPECT_GE(u.told * kHours, 2.0 * kMean);
  EXPECT_LT(std::abs(u.bias), 0.5 * kMean);
  EXPECT_LT(u.most, kMost);
  EXPECT_LT(u.most_of_month, kMostOfMonth);
}

// Walls, mesh, boxes and crowns that drop their leaves, at random.
Model leafy_yard(unsigned seed) {
  std::mt19937 random(seed);
  const double turn = between(random, 0, 6.28);
  Model m = yard(
      0, 0, 8, 8, 0.5,
      [&](double x, double y) { return 0.3 * std::sin(x + turn) * std::cos(1.1 * y); }, 1.0);
  m.site.place->latitude = between(random, -60, 60) * geom::kDegree;
  as_mesh(add_wall(m, "south", {-0.01, -0.01}, {8.01, -0.01}, -1, between(random, 1, 3)), 0.025,
          0.003);
  add_wall(m, "east", {8.01, -0.01}, {8.01, between(random, 2, 8)}, -1, between(random, 1, 3));
  add_boxes_and_crowns(m, random, 7);
  return m;
}

TEST(SunGrid, agrees_with_every_step_on_leafy_yards) {
  for (unsigned seed = 1; seed <= 4; ++seed) expect_like(unlike(leafy_yard(seed), 0.0));
}

// Hours of the year at the nodes of some of a yard's tiles, by either list of suns.
std::vector<double> hours_of(const FastBeam& fast, const std::vector<Tile>& tiles,
                             std::size_t every, const YearSuns& suns) {
  std::vector<double> hours;
  TileBeam beam;
  for (std::size_t t = every / 2; t < tiles.size(); t += every) {
    std::array<double, kTileNodes> sum{};
    for (const YearSun& s : suns.suns)
      for (const SunHours& h : s.hours) {
        fast.tile(tiles[t], s.ray, suns.leaves[h.leaves], fast.near(tiles[t].box, {&s.ray, 1}), {},
                  beam);
        for (std::size_t k = 0; k < kTileNodes; ++k) sum[k] += beam.at(k) * h.hours;
      }
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tiles[t].inside[k] != 0) hours.push_back(sum[k]);
  }
  return hours;
}

TEST(SunGrid, agrees_with_every_step_on_the_examples) {
  constexpr std::size_t kTilesAsked = 3;
  for (const char* name : {"north-yard", "larkfell-terrace", "crater-paddock"}) {
    SCOPED_TRACE(name);
    const std::string file = tests::source_dir() + "/examples/" + name + "/" + name + ".site.toml";
    const Model m = build_model(read_site(file));
    const FastBeam fast(m);
    const std::vector<Tile> tiles = ground_tiles(m, m.ground.grid);
    const std::size_t every = std::max<std::size_t>(1, tiles.size() / kTilesAsked);
    const Place& place = *m.site.place;
    const auto grid = hours_of(fast, tiles, every, year_suns(fast, place, 2026, 10.0, false));
    const auto steps = hours_of(fast, tiles, every, year_suns(fast, place, 2026, 10.0, true));
    double mean = 0.0, most = 0.0;
    for (std::size_t n = 0; n < steps.size(); ++n) {
      mean += std::abs(grid[n] - steps[n]) / static_cast<double>(steps.size());
      most = std::max(most, std::abs(grid[n] - steps[n]));
    }
    RecordProperty(name, std::to_string(mean) + " " + std::to_string(most));
    EXPECT_LT(mean, kMean);
    EXPECT_LT(most, kMost);
  }
}

}  // namespace
}  // namespace hummock::shade
