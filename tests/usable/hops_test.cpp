// The way back sought only among what is come to is the way back sought among all.
#include "engine/usable/hops.h"

#include <gtest/gtest.h>

#include <random>

#include "tests/support/fenced_yard.h"

namespace hummock {
namespace {

TEST(Hops, TheWayBackIsSoughtOnlyAmongWhatIsComeTo) {
  std::mt19937 random(20260606);
  const auto from = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  usable::Leaper leaper;
  leaper.height = 0.7;
  leaper.distance = 2.0;
  leaper.share_in_water = 0.5;
  leaper.half_width = 0.05;
  leaper.length = 0.4;
  leaper.reach = leaper.tall = 0.2;
  leaper.crouch = 0.1;
  int one_way = 0, both_ways = 0;
  for (int yard = 0; yard < 40; ++yard) {
    Model model = tests::bare_model(geom::level_ground({{-1, -1}, {9, 9}}, 0.5, 0.0),
                                    tests::rectangle(0, 0, 8, 8));
    constexpr int kParts = 14;
    std::vector<usable::RimSpot> rim, behind;
    for (int part = 0; part < kParts; ++part) {
      // A block and what stands on its top, or a pit's floor below all others.
      const Vec2 at{from(1.0, 7.0), from(1.0, 7.0)};
      const double top = part % 4 == 3 ? -from(0.5, 1.2) : from(0.05, 1.1);
      if (top > 0.0)
        tests::add_solid(model, "block " + std::to_string(part),
                         tests::box({at.x - 0.3, at.y - 0.3, 0.0}, {at.x + 0.3, at.y + 0.3, top}));
      for (int k = 0; k < 6; ++k)
        rim.push_back({{at.x + from(-0.3, 0.3), at.y + from(-0.3, 0.3), top}, part, part % 5 == 4});
      for (int k = 0; k < 3; ++k)
        behind.push_back({{at.x + from(-0.5, 0.5), at.y + from(-0.5, 0.5), top}, part, false});
    }
    auto scene = std::make_shared<geom::RayScene>();
    for (std::size_t k = 0; k < model.parts.size(); ++k)
      scene->add_mesh(model.parts[k].mesh, static_cast<std::int32_t>(k));
    scene->commit();
    model.body_scene = scene;
    const std::vector<std::pair<int, int>> joined{{0, 5}};
    for (int start = 0; start < kParts; ++start) {
      const auto quick = usable::parts_come_to(model, leaper, rim, joined, kParts, start);
      EXPECT_EQ(quick, usable::parts_come_to(model, leaper, rim, joined, kParts, start,
                                             usable::WayBack::among_all))
          << yard << " from " << start;
      for (const std::uint8_t come : quick) ++(come != 0 ? both_ways : one_way);
      const auto more = usable::parts_come_to(model, leaper, rim, joined, kParts, start,
                                              usable::WayBack::among_those_come_to, behind);
      EXPECT_EQ(more, usable::parts_come_to(model, leaper, rim, joined, kParts, start,
                                            usable::WayBack::among_all, behind));
      for (std::size_t part = 0; part < more.size(); ++part) EXPECT_GE(more[part], quick[part]);
    }
  }
  EXPECT_GT(both_ways, 40 * 14 + 100);  // more than the starts themselves
  EXPECT_GT(one_way, 100);
}

}  // namespace
}  // namespace hummock
