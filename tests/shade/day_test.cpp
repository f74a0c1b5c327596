// A day's results: hours, symmetry, sky, energy, refusals.
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <cstring>

#include "engine/shade/day/kept_beams.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/clear_sky.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

TEST(ShadeDay, on_a_flat_open_yard_has_sun_from_rise_to_set) {
  Model m = yard(0, 0, 12, 9, 0.5);
  for (const sun::Date& d : {sun::Date{2026, 3, 21}, {2026, 6, 21}, {2026, 12, 21}}) {
    Settings settings;
    settings.date = d;
    const Day day = analyse(m, settings);
    EXPECT_NEAR(day.sun_hours_min, day.sun.day_length_h, settings.step_minutes / 60.0);
    EXPECT_NEAR(day.sun_hours_max, day.sun.day_length_h, settings.step_minutes / 60.0);
    EXPECT_NEAR(day.open_irradiation_kwh_m2, day.irradiation_mean_kwh_m2, 1e-4);
    for (const double share : day.shaded_share) EXPECT_EQ(share, 0.0);
    EXPECT_EQ(day.hottest_shade_m2_per_animal, 0.0);
  }
}

TEST(ShadeDay, knows_the_polar_night_and_the_midnight_sun) {
  Model m = yard(0, 0, 4, 4, 0.5);
  m.site.place->latitude = 78.2 * geom::kDegree;
  Settings settings;
  settings.date = {2026, 12, 21};
  const Day night = analyse(m, settings);
  EXPECT_EQ(night.sun.kind, sun::DayKind::down_all_day);
  EXPECT_TRUE(night.times.empty());
  EXPECT_EQ(night.sun_hours_max, 0.0);
  EXPECT_NEAR(night.hottest_shade_m2_per_animal, 16.0 / 3.0, 1e-9);
  settings.date = {2026, 6, 21};
  const Day light = analyse(m, settings);
  EXPECT_NEAR(light.sun_hours_mean, 24.0, 1e-5);
}

TEST(ShadeDay, of_a_symmetric_yard_is_symmetric_about_transit) {
  // A wall along the meridian: what the east side has in the morning the west side has after noon.
  Model m = yard(-6, -4, 6, 4, 0.25);
  add_wall(m, "wall", {0.0, -2.0}, {0.0, 2.0}, -0.1, 1.5);
  Settings settings;
  settings.date = {2026, 6, 21};
  settings.step_minutes = 5.0;
  const Day day = analyse(m, settings);
  const geom::Raster& h = day.sun_hours;
  for (int j = 0; j < h.grid.ny; ++j) {
    for (int i = 0; i < h.grid.nx / 2; ++i) {
      ASSERT_NEAR(h.at(i, j), h.at(h.grid.nx - 1 - i, j), 2 * settings.step_minutes / 60.0)
          << i << " " << j;
    }
  }
  EXPECT_LT(day.sun_hours_min, 0.7 * day.sun_hours_max);
}

TEST(ShadeDay, counts_shade_in_square_metres_for_each_animal) {
  Model m = yard(0, 0, 10, 10, 0.1);
  add_part(m, "roof", PartKind::roof, box_mesh({-60, -60, 3}, {5, 60, 3.1}));
  Settings settings;
  settings.date = {2026, 6, 21};
  const Day day = analyse(m, settings);
  for (std::size_t k = 0; k < day.times.size(); ++k) {
    EXPECT_NEAR(day.shaded_m2_per_animal[k], day.shaded_share[k] * 100.0 / 3.0, 1e-9);
    // The roof's edge at x = 5 casts its line to 5 − 3·run.x (its upper edge when the sun is east).
    const Vec3 s = day.times[k].towards;
    const double edge = 5.0 - (s.x > 0 ? 3.0 : 3.1) * s.x / s.z;
    if (std::abs(s.x / s.z) > 1.5) continue;
    EXPECT_NEAR(day.shaded_share[k], edge / 10.0, 0.011) << day.time_labels[k];
  }
}

TEST(ShadeDay, keeps_bands_that_add_up_to_the_hours) {
  Model m = yard(-4, -4, 4, 4, 0.25);
  add_solid(m, "box", box_mesh({-1, -1, 0}, {1, 1, 1.5}));
  Settings settings;
  settings.keep_bands = true;
  settings.step_minutes = 30;
  const Day day = analyse(m, settings);
  ASSERT_EQ(day.beams->size(), day.times.size());
  std::vector<geom::Raster> beams;
  for (std::size_t t = 0; t < day.times.size(); ++t) beams.push_back(day.beams->band(t));
  for (std::size_t n = 0; n < day.sun_hours.values.size(); ++n) {
    if (std::isnan(day.sun_hours.values[n])) continue;  // under the box
    double sum = 0;
    for (std::size_t t = 0; t < beams.size(); ++t) sum += beams[t].values[n] * day.hours[t];
    ASSERT_NEAR(sum, day.sun_hours.values[n], 1e-4);
  }
  ASSERT_EQ(day.hour_of_clock.size(), day.hour_shade_share.size());
  EXPECT_GT(day.hour_of_clock.size(), 15U);
}

TEST(ShadeDay, gives_the_sun_on_tops_of_objects) {
  Model m = yard(-6, -6, 6, 6, 0.5);
  add_solid(m, "sunning rock", box_mesh({-1, -1, 0}, {1, 1, 0.5}));
  add_solid(m, "shaded rock", box_mesh({3, 3, 0}, {4, 4, 0.5}));
  add_part(m, "roof", PartKind::roof, box_mesh({-200, 2, 3}, {200, 200, 3.1}));
  m.parts.back().closed = false;
  const Day day = analyse(m, {});
  ASSERT_EQ(day.objects.size(), 2U);
  EXPECT_EQ(day.objects[0].name, "sunning rock");
  EXPECT_NEAR(day.objects[0].at.z, 0.5, 1e-12);
  EXPECT_GT(day.objects[0].sun_hours, day.objects[1].sun_hours + 4.0);
}

// View factor of an endless wall seen β high from a level point: (1 − cos β)/2.
TEST(ShadeDay, sky_view_beside_an_endless_wall_meets_the_closed_form) {
  Model m = yard(0.5, -1, 12, 1, 0.25);
  add_wall(m, "wall", {0.0, -4000.0}, {0.0, 4000.0}, -1.0, 3.0);
  Settings settings;
  settings.step_minutes = 120;
  const Day day = analyse(m, settings);
  for (int i = 0; i < day.sky_view.grid.nx; ++i) {
    const double x = day.sky_view.grid.node(i, 0).x;
    const double beta = std::atan2(3.0, x);
    EXPECT_NEAR(day.sky_view.at(i, 4), 0.5 * (1 + std::cos(beta)), 0.01) << x;
  }
}

TEST(ShadeDay, sky_view_of_an_open_slope_is_that_of_a_tilted_plane) {
  for (const double slope : {10.0, 25.0}) {
    const double t = std::tan(slope * geom::kDegree);
    const Model m = yard(-2, -2, 2, 2, 0.25, [&](double x, double) { return t * x; });
    Settings settings;
    settings.step_minutes = 120;
    // Isotropic: (1 + cos slope)/2 (Hottel & Woertz 1942, as the pvlib library cites it).
    EXPECT_NEAR(analyse(m, settings).sky_view_mean, 0.5 * (1 + std::cos(slope * geom::kDegree)),
                0.01);
  }
}

// Haurwitz 1945 as tabulated in the tests of a public solar library (pvlib).
// Regression values of the pvlib library (test_clearsky), which follows the published formula.
TEST(ClearSky, meets_the_values_of_a_library_for_haurwitz) {
  const double rows[5][2] = {{5, 48.6298687941956},
                             {10, 135.741748091813},
                             {30, 487.894132885425},
                             {50, 778.766689344363},
                             {90, 1035.09203253450}};
  for (const auto& row : rows) EXPECT_NEAR(haurwitz(row[0] * geom::kDegree), row[1], 1e-9);
  for (const double below : {-20.0, -0.05, -0.001}) {
    EXPECT_EQ(haurwitz(below * geom::kDegree), 0.0);
  }
}

// Ineichen 2008 with aerosol 0.1, water 1 cm, 101325 Pa, 1364 W/m² at 80° (pvlib's tests).
// Regression values of the pvlib library (test_clearsky) at its defaults.
TEST(ClearSky, meets_the_values_of_a_library_for_simplified_solis) {
  const Irradiance sky = solis_sky(80 * geom::kDegree, 0.1, 1.0, 101325.0, 1364.0);
  EXPECT_NEAR(sky.global, 1064.653145, 1e-5);
  EXPECT_NEAR(sky.direct, 959.335463, 1e-5);
  EXPECT_NEAR(sky.diffuse, 129.125602, 1e-5);
  EXPECT_EQ(solis_sky(-10 * geom::kDegree, 0.1, 1.0, 101325.0, 1364.0).global, 0.0);
}

TEST(ClearSky, splits_haurwitz_into_parts_that_add_up_and_stays_near_solis) {
  for (double e = 5.0; e <= 90.0; e += 5.0) {
    const Irradiance sky = haurwitz_sky(e * geom::kDegree, 1.0);
    EXPECT_NEAR(sky.direct * std::sin(e * geom::kDegree) + sky.diffuse, sky.global, 1e-9);
    EXPECT_LT(sky.direct, 1361.0);
    const Irradiance other = solis_sky(e * geom::kDegree, 0.1, 1.0, 101325.0, 1361.0);
    if (e >= 20) {
      EXPECT_NEAR(sky.global, other.global, 0.06 * other.global) << e;
    }
  }
  // The pieces of Erbs, Klein & Duffie's curve meet.
  EXPECT_NEAR(erbs_diffuse_share(0.22), erbs_diffuse_share(0.2200001), 2e-3);
  EXPECT_NEAR(erbs_diffuse_share(0.8), erbs_diffuse_share(0.8000001), 2e-3);
}

bool same_bits(const geom::Raster& a, const geom::Raster& b) {
  return a.values.size() == b.values.size() &&
         std::memcmp(a.values.data(), b.values.data(), a.values.size() * sizeof(float)) == 0;
}

TEST(ShadeDay, is_the_same_to_the_bit_on_one_thread_and_two) {
  Model m = yard(-8, -8, 8, 8, 0.2,
                 [](double x, double y) { return 0.6 * std::sin(x) * std::cos(0.7 * y); });
  as_mesh(add_wall(m, "panel", {-8, -8}, {8, -8}, -1, 2.4), 0.025, 0.003);
  add_solid(m, "boulder", ellipsoid({1, 2, 0.3}, {1, 0.8, 0.7}, 24));
  add_part(m, "crown", PartKind::crown, ellipsoid({-3, 1, 4}, {2, 2, 1.5}, 24)).leaf_density = 1;
  Settings settings;
  settings.step_minutes = 30;
  std::vector<Day> days;
  for (const std::size_t threads : {1, 2}) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    days.push_back(analyse(m, settings));
  }
  EXPECT_TRUE(same_bits(days[0].sun_hours, days[1].sun_hours));
  EXPECT_TRUE(same_bits(days[0].irradiation_kwh_m2, days[1].irradiation_kwh_m2));
  EXPECT_TRUE(same_bits(days[0].sky_view, days[1].sky_view));
  EXPECT_EQ(days[0].shaded_share, days[1].shaded_share);
}

std::string refusal(const Model& m, const Settings& settings) {
  try {
    analyse(m, settings);
  } catch (const InputError& e) {
    return e.what();
  }
  return "";
}

TEST(ShadeDay, refuses_what_it_cannot_do_in_one_line) {
  Model m = yard(0, 0, 4, 4, 0.5);
  Settings settings;
  settings.step_minutes = 0;
  EXPECT_NE(refusal(m, settings).find("step"), std::string::npos);
  settings.step_minutes = 121;
  EXPECT_NE(refusal(m, settings).find("step"), std::string::npos);
  settings = {};
  settings.cell = -1;
  EXPECT_NE(refusal(m, settings).find("cell"), std::string::npos);
  settings = {};
  settings.date = {2101, 1, 1};
  EXPECT_NE(refusal(m, settings).find("date"), std::string::npos);
  m.site.place->latitude = 95 * geom::kDegree;
  EXPECT_NE(refusal(m, {}).find("latitude"), std::string::npos);
  m.site.place.reset();
  const std::string none = refusal(m, {});
  EXPECT_NE(none.find("place"), std::string::npos);
  EXPECT_EQ(none.find('\n'), std::string::npos);
}

TEST(ShadeDay, stops_when_told_to) {
  const Model m = yard(0, 0, 40, 40, 0.1);
  const std::atomic<bool> cancel{true};
  Progress progress;
  progress.cancel = &cancel;
  EXPECT_THROW(analyse(m, {}, progress), Cancelled);
}

// Nodes on the wall's line are lit from outside; inside a closed box no sun is.
TEST(ShadeDay, in_a_sealed_box_is_without_sun) {
  Model m = yard(0, 0, 4, 4, 0.1, {}, 1.0);
  m.site.species.body.value = {0.4, 0.12, 0.2};
  for (const auto& [a, b] :
       {std::pair{Vec2{0, 0}, Vec2{4, 0}}, {{4, 0}, {4, 4}}, {{4, 4}, {0, 4}}, {{0, 4}, {0, 0}}})
    add_wall(m, "wall", a, b, -0.5, 2.8);
  add_part(m, "roof", PartKind::roof, box_mesh({0, 0, 2.8}, {4, 4, 2.9}));
  const Day day = analyse(m, {});
  EXPECT_EQ(day.sun_hours_max, 0.0);
  for (const double share : day.shaded_share) EXPECT_EQ(share, 1.0);
}

// Shade that falls on ground the animal cannot live on shades no animal.
TEST(ShadeDay, counts_no_shade_over_deep_water) {
  Model m = yard(0, 0, 10, 10, 0.1, {}, 1.0);
  m.site.species.body.value = {0.4, 0.12, 0.2};
  m.site.species.wade_depth.value = 0.05;
  add_part(m, "roof", PartKind::roof, box_mesh({3.5, 3.5, 1.5}, {6.5, 6.5, 1.6}));
  const double dry = analyse(m, {}).hottest_shade_m2_per_animal;
  EXPECT_NEAR(dry, 9.0 / 3.0, 0.4);
  Water pool;
  pool.outline = rectangle(1.2, 2.6, 8.8, 9.0);
  pool.level = 1.0;
  m.site.waters.push_back(pool);
  Part& sheet = add_part(m, "pool", PartKind::water, box_mesh({1.2, 2.6, 0.9}, {8.8, 9.0, 1.0}));
  sheet.source = 0;
  sheet.blocks_body = false;
  EXPECT_LT(analyse(m, {}).hottest_shade_m2_per_animal, 0.1);
}

// A top of two triangles behind a low screen: at the equinox the shade passes south of the middle
// of both all day. 8.80 h of 12 h by the sun at declination 0 over 50 × 50 points of the top, a ray
// each, every 6 minutes; refraction lengthens that day by 0.18 h.
TEST(ShadeDay, takes_the_sun_on_a_top_by_its_area) {
  Model m = yard(0, 0, 12, 12, 0.5);
  m.site.place->latitude = 50.0 * geom::kDegree;
  add_solid(m, "slab", box_mesh({5.1, 5.1, 0}, {6.9, 6.9, 0.25}));
  add_solid(m, "screen", box_mesh({3.5, 4.87, 0}, {8.5, 5.05, 0.75}));
  Settings settings;
  settings.date = {2026, 3, 21};
  const Day day = analyse(m, settings);
  EXPECT_NEAR(day.objects[0].sun_hours, 8.9, 0.35);
}

// A crown that is bare from 1 July on, of 0.7 m² of leaf to the m³.
TEST(ShadeDay, asks_the_hottest_hours_of_further_days_as_of_the_day_itself) {
  Model m = yard(0, 0, 8, 8, 0.25);
  Part& crown = add_part(m, "crown", PartKind::crown, box_mesh({2, 2, 2}, {6, 6, 4}));
  crown.blocks_body = false;
  crown.leaf_density = 0.7;
  crown.bare = Season{{7, 1}, {10, 1}};
  Settings settings;
  settings.date = {2026, 6, 21};
  const Day alone = analyse(m, settings);
  settings.date = {2026, 7, 15};
  const Day july = analyse(m, settings);
  settings.date = {2026, 6, 21};
  settings.hot_days = {{2026, 7, 15}};
  const Day both = analyse(m, settings);
  ASSERT_LT(july.hottest_shade_m2_per_animal, alone.hottest_shade_m2_per_animal);
  EXPECT_EQ(both.hottest_shade_m2_per_animal, july.hottest_shade_m2_per_animal);
  EXPECT_EQ(hottest_in_words(both), july.hottest_at + " on 2026-07-15");
  EXPECT_EQ(both.shaded_m2_per_animal, alone.shaded_m2_per_animal);
  EXPECT_EQ(both.sun_hours_mean, alone.sun_hours_mean);
  settings.hot_days = {{2026, 6, 21}};
  const Day twice = analyse(m, settings);
  EXPECT_EQ(twice.hottest_shade_m2_per_animal, alone.hottest_shade_m2_per_animal);
  EXPECT_FALSE(twice.hottest_on);
}

TEST(ShadeDay, says_the_hot_hours_by_the_clock) {
  const Model m = yard(0, 0, 4, 4, 0.5);  // 0.61 degrees west, clock an hour ahead: noon 13:04
  const Day day = analyse(m, {});
  EXPECT_EQ(day.hot_clock, "12:04 to 16:04");
  EXPECT_EQ(sun::iso(*m.site.place, day.hot_from), "2026-06-21T12:04+01:00");
}

}  // namespace
}  // namespace hummock::shade
