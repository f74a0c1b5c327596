// The civil clock: dates, zones, and what is refused.
#include <gtest/gtest.h>

#include "engine/sun/sun.h"

namespace hummock::sun {
namespace {

Place in_zone(const char* zone) {
  Place p;
  p.time_zone = zone;
  return p;
}

TEST(Clock, reads_dates_and_refuses_what_is_none) {
  EXPECT_EQ(parse_date("2024-02-29", {}), (Date{2024, 2, 29}));
  for (const char* bad : {"2023-02-29", "1899-12-31", "2101-01-01", "2026-6-21", "2026-06-21 ", "",
                          "21.6.2026", "2026-13-01", "2026-06-00", "2026-06-31", "two thousand"}) {
    EXPECT_THROW(parse_date(bad, {"", 0, "--date"}), InputError) << bad;
  }
}

TEST(Clock, counts_days_both_ways) {
  EXPECT_EQ(day_number({2000, 1, 1}), 0);
  EXPECT_EQ(day_number({1999, 12, 31}), -1);
  for (int n = -36524; n <= 36889; n += 97) EXPECT_EQ(day_number(date_of(n)), n);
}

TEST(Clock, knows_fixed_offsets_and_named_zones) {
  EXPECT_DOUBLE_EQ(utc_offset_h(in_zone("-07:00"), {0.0}), -7.0);
  EXPECT_DOUBLE_EQ(utc_offset_h(in_zone("+05:45"), {0.0}), 5.75);
  const Place london = in_zone("Europe/London");
  EXPECT_DOUBLE_EQ(utc_offset_h(london, {day_number({2026, 6, 21}) + 0.5}), 1.0);
  EXPECT_DOUBLE_EQ(utc_offset_h(london, {day_number({2026, 12, 21}) + 0.5}), 0.0);
  EXPECT_EQ(clock(london, {day_number({2026, 6, 21}) + 12.6666666 / 24.0}),
            "2026-06-21 13:40 +01:00");
  EXPECT_EQ(clock_short(in_zone("-03:30"), {day_number({2026, 1, 1}) + 0.0}), "20:30");
}

// The zone files end in 2037; the rules go on.
TEST(Clock, keeps_summer_time_beyond_the_last_listed_year) {
  for (int year : {2038, 2045, 2064, 2096, 2099, 2100}) {
    EXPECT_DOUBLE_EQ(utc_offset_h(in_zone("Europe/Berlin"), {day_number({year, 7, 1}) + 0.5}), 2.0)
        << year;
    EXPECT_DOUBLE_EQ(utc_offset_h(in_zone("Europe/Berlin"), {day_number({year, 1, 10}) + 0.5}), 1.0)
        << year;
  }
}

TEST(Clock, goes_back_and_forth) {
  const Place berlin = in_zone("Europe/Berlin");
  for (const Date& d : {Date{2026, 1, 5}, {2026, 6, 21}, {2050, 6, 21}, {1987, 8, 1}}) {
    const Instant t = instant(berlin, d, 13.0 + 40.0 / 60.0);
    EXPECT_EQ(clock(berlin, t).substr(0, 16), text(d) + " 13:40");
    EXPECT_EQ(local_date(berlin, t), d);
  }
  // 02:30 does not exist on 29 March 2026 and comes twice on 25 October.
  EXPECT_EQ(clock(berlin, instant(berlin, {2026, 3, 29}, 2.5)), "2026-03-29 03:30 +02:00");
  EXPECT_EQ(clock(berlin, instant(berlin, {2026, 10, 25}, 2.5)), "2026-10-25 02:30 +02:00");
}

TEST(Clock, reads_times_with_and_without_a_zone) {
  const Place berlin = in_zone("Europe/Berlin");
  const double noon = day_number({2026, 6, 21}) + 0.5;
  EXPECT_NEAR(parse_time("2026-06-21T12:00:00Z", berlin, {}).ut_days, noon, 1e-9);
  EXPECT_NEAR(parse_time("2026-06-21 14:00", berlin, {}).ut_days, noon, 1e-9);
  EXPECT_NEAR(parse_time("2026-06-21T05:00:00-07:00", berlin, {}).ut_days, noon, 1e-9);
  for (const char* bad : {"2026-06-21", "2026-06-21T25:00", "2026-06-21T12:60", "2026-06-21T12",
                          "2026-06-21T12:00+1", "2026-06-21T12:00:00Zulu", "noon"}) {
    EXPECT_THROW(parse_time(bad, berlin, {"", 0, "--time"}), InputError) << bad;
  }
}

TEST(Clock, knows_seasons_that_wrap_over_the_new_year) {
  const Season winter{{11, 1}, {4, 1}};
  EXPECT_TRUE(within(winter, {2026, 12, 31}));
  EXPECT_TRUE(within(winter, {2026, 4, 1}));
  EXPECT_TRUE(within(winter, {2026, 11, 1}));
  EXPECT_FALSE(within(winter, {2026, 4, 2}));
  EXPECT_FALSE(within({{5, 1}, {8, 31}}, {2026, 9, 1}));
}

TEST(Clock, refuses_a_place_that_cannot_be_and_says_where) {
  Place p;
  p.where = {"yard.site.toml", 12, "place"};
  const auto refused = [&](const char* key) {
    try {
      check_place(p);
    } catch (const InputError& e) {
      EXPECT_NE(std::string(e.what()).find(std::string("yard.site.toml:12: place.") + key),
                std::string::npos)
          << e.what();
      return true;
    }
    return false;
  };
  EXPECT_FALSE(refused(""));
  p.latitude = 95.0 * geom::kDegree;
  EXPECT_TRUE(refused("latitude"));
  p.latitude = 0.5;
  p.longitude = 181.0 * geom::kDegree;
  EXPECT_TRUE(refused("longitude"));
  p.longitude = 0.0;
  p.time_zone = "Europe/Nowhere";
  EXPECT_TRUE(refused("time_zone"));
  p.time_zone = "+1:00";
  EXPECT_TRUE(refused("time_zone"));
}

}  // namespace
}  // namespace hummock::sun
