// The days of the highest noon sun.
#include "engine/sun/highest_noon.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace hummock::sun {
namespace {

Place place_at(double latitude, double longitude) {
  Place p;
  p.latitude = latitude * geom::kDegree;
  p.longitude = longitude * geom::kDegree;
  p.time_zone = "+02:00";
  return p;
}

double noon_elevation(const Place& place, int day) {
  const Date date = date_of(day);
  return position(place, rise_set(place, date).transit).true_elevation;
}

// The witness is ERFA's sun at every noon of the year. The sun moves up to 0.4 degrees a day, so
// each passing overhead is within 0.2 degrees of the zenith.
TEST(HighestNoon, no_other_day_of_its_half_year_has_a_higher_sun) {
  for (const double latitude : {-23.0, -12.0, -5.0, 0.0, 5.0, 15.0, 21.0, 23.3, 40.0, -52.0}) {
    const Place place = place_at(latitude, 30.0);
    const auto two = highest_noons(place.latitude, place.longitude, 2026);
    double most = 0.0;
    for (int d = day_number({2026, 1, 1}); d <= day_number({2026, 12, 31}); ++d)
      most = std::max(most, noon_elevation(place, d));
    for (const Date& day : two)
      EXPECT_GT(noon_elevation(place, day_number(day)), most - 0.21 * geom::kDegree) << latitude;
  }
}

TEST(HighestNoon, is_midsummer_outside_the_tropics) {
  const Date june{2026, 6, 21}, december{2026, 12, 21};
  for (const double latitude : {23.5, 51.0, 80.0}) {
    const auto north = highest_noons(latitude * geom::kDegree, 0.0, 2026);
    const auto south = highest_noons(-latitude * geom::kDegree, 0.0, 2026);
    EXPECT_EQ(north[0], june);
    EXPECT_EQ(north[1], june);
    EXPECT_EQ(south[0], december);
    EXPECT_EQ(south[1], december);
  }
}

TEST(HighestNoon, between_the_tropics_is_once_before_and_once_after_the_june_solstice) {
  for (const double latitude : {-20.0, 0.0, 5.0, 20.0}) {
    const auto two = highest_noons(latitude * geom::kDegree, 0.0, 2026);
    EXPECT_LT(day_number(two[0]), day_number({2026, 6, 21})) << latitude;
    EXPECT_GT(day_number(two[1]), day_number({2026, 6, 21})) << latitude;
  }
}

}  // namespace
}  // namespace hummock::sun
