// Boxes met, held against looking at each.
#include "geometry/plan/plan_boxes.h"

#include <gtest/gtest.h>

#include <random>

namespace hummock::geom {
namespace {

TEST(PlanBoxes, MeetingAreThoseThatShareAPoint) {
  std::mt19937 random(9);  // NOLINT(cert-msc51-cpp): the same boxes every time
  // Whole numbers, so that boxes often touch in a side or a corner.
  std::uniform_int_distribution<int> at(0, 40), wide(0, 6);
  for (const std::size_t count : {0U, 1U, 5U, 60U, 400U}) {
    std::vector<Box2> boxes;
    const auto any = [&] {
      const Vec2 lo{1.0 * at(random), 1.0 * at(random)};
      return Box2{lo, lo + Vec2{1.0 * wide(random), 1.0 * wide(random)}};
    };
    for (std::size_t k = 0; k < count; ++k) boxes.push_back(any());
    const PlanBoxes tree(boxes);
    for (int round = 0; round < 100; ++round) {
      const Box2 box = any();
      std::vector<std::size_t> met;
      for (std::size_t k = 0; k < count; ++k) {
        const Box2& b = boxes[k];
        if (b.lo.x <= box.hi.x && box.lo.x <= b.hi.x && b.lo.y <= box.hi.y && box.lo.y <= b.hi.y)
          met.push_back(k);
      }
      EXPECT_EQ(tree.meeting(box), met);
    }
  }
}

}  // namespace
}  // namespace hummock::geom
