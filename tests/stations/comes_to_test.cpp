// What the animal comes to, against feet put down at random (seeded): a station hung in the air is
// come to where the least way from a standing body to it is within its reach.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/stations/stations.h"
#include "tests/stations/small_yards.h"

namespace hummock {
namespace {

constexpr double kBack = 0.2, kHalfWidth = 0.06;  // m, of the test's animal

// Over the ground or over a box 1.5 m high, which the animal does not leap on to.
struct Hung {
  Vec2 at;
  double z = 0.0, reach = 0.0;
};

bool over_a_box(const Site& site, Vec2 p, double more) {
  return std::any_of(site.objects.begin(), site.objects.end(), [&](const Object& box) {
    return std::abs(p.x - box.at.x) <= 0.5 * box.size.x + more &&
           std::abs(p.y - box.at.y) <= 0.5 * box.size.y + more;
  });
}

double least_way(const Site& site, const Hung& hung, std::mt19937& random) {
  std::uniform_real_distribution<double> about(-2.5, 2.5);
  double least = 1e300;
  for (int n = 0; n < 20000; ++n) {
    const Vec2 foot = hung.at + Vec2{about(random), about(random)};
    const bool in = foot.x >= kHalfWidth && foot.x <= 10.0 - kHalfWidth && foot.y >= kHalfWidth &&
                    foot.y <= 8.0 - kHalfWidth;
    if (!in || over_a_box(site, foot, kHalfWidth)) continue;
    least =
        std::min(least, std::hypot(geom::distance(foot, hung.at), std::max(0.0, hung.z - kBack)));
  }
  return least;
}

// Undecided within 0.15 m: a cell, and the half width of the body.
TEST(ComesTo, FeetPutDownAtRandomTellTheSame) {
  std::mt19937 random(31);
  const auto any = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "south", {3.0, 2.5}, {2.6, 1.8, 1.5});
  test::add_box(site, "north", {6.5, 5.5}, {1.6, 2.8, 1.5});
  std::vector<Hung> list;
  for (int k = 0; k < 120; ++k) {
    Hung hung{{any(1, 9), any(1, 7)}, 0.0, any(0.1, 1.8)};
    hung.z = over_a_box(site, hung.at, 0.0) ? any(1.55, 2.0) : any(0.0, 2.0);
    test::add_station(site, StationKind::food, hung.at, "", hung.z).reach = hung.reach;
    list.push_back(hung);
  }
  const stations::Result r = stations::analyse(test::built(site));
  int comes = 0, not_come = 0;
  for (std::size_t k = 0; k < list.size(); ++k) {
    const double way = least_way(site, list[k], random);
    if (std::abs(way - list[k].reach) < 0.15) continue;
    EXPECT_EQ(r.rows[k].reached, way < list[k].reach) << k << " " << way << " " << list[k].reach;
    ++(way < list[k].reach ? comes : not_come);
  }
  EXPECT_GT(comes, 20);
  EXPECT_GT(not_come, 20);
}

}  // namespace
}  // namespace hummock
