// What `hummock sun` prints.
#include "engine/sun/sun_json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace hummock::sun {
namespace {

TEST(SunJson, gives_the_keys_of_the_command) {
  Place p;
  p.latitude = 78.216667 * geom::kDegree;
  p.longitude = 15.633333 * geom::kDegree;
  const nlohmann::json j = to_json(p, {day_number({2020, 6, 21}) + 0.5});
  EXPECT_TRUE(j["sunrise"].is_null());
  EXPECT_EQ(j["day"], "up all day");
  EXPECT_NEAR(j["zenith_deg"].get<double>() + j["elevation_deg"].get<double>(), 90.0, 1e-12);
  p.latitude = 39.742476 * geom::kDegree;
  p.longitude = -105.1786 * geom::kDegree;
  p.time_zone = "-07:00";
  const nlohmann::json golden = to_json(p, {day_number({2003, 10, 17}) + 19.5 / 24.0});
  EXPECT_EQ(golden["sunrise"], "2003-10-17T06:12:43-07:00");
  EXPECT_EQ(golden["transit"], "2003-10-17T11:46:05-07:00");
}

}  // namespace
}  // namespace hummock::sun
