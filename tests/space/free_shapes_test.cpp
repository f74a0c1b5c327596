// The largest circle and rectangle among things, and their second asking for another body.
#include "engine/space/free_shapes.h"

#include <gtest/gtest.h>

#include <random>

#include "engine/space/space.h"
#include "tests/support/fenced_yard.h"

namespace hummock {
namespace {

// 9 × 8 m of rough ground with stones on it here and there; an animal 0.4 m long and 0.2 high.
Model yard_of_stones(std::mt19937& random, int stones) {
  const auto rough = [](double x, double y) { return 0.05 * std::sin(1.3 * x) * std::cos(y); };
  Model model = tests::bare_model(tests::surface({-1, -1}, {10, 9}, 0.1, rough),
                                  tests::rectangle(0, 0, 9, 8));
  Species& s = model.site.species;
  s.stand_slope.value = 40 * geom::kDegree;
  s.body.value = {0.4, 0.12, 0.2};
  s.least_opening.value = 0.08;
  s.wade_depth.value = 0.05;
  std::uniform_real_distribution<double> x(0.5, 8.5), y(0.5, 7.5), radius(0.1, 0.35);
  for (int k = 0; k < stones; ++k)
    tests::add_solid(model, "stone " + std::to_string(k),
                     tests::stone({x(random), y(random), 0.05}, radius(random), 0.1, 6));
  tests::commit_scene(model);
  return model;
}

std::shared_ptr<const space::FreeShapes> shapes_of(
    const Model& model, const std::shared_ptr<const space::FreeShapes>& known = nullptr) {
  const usable::UsableGround ground(model);
  return space::free_shapes(model, ground, usable::find_nodes(model, ground), known);
}

// No nearer to any line of a thing than its radius: each asked one by one.
TEST(FreeShapes, TheCircleKeepsClearOfEveryLine) {
  std::mt19937 random(23);
  for (const int stones : {1, 7, 40}) {
    const auto shapes = shapes_of(yard_of_stones(random, stones));
    const geom::Circle& c = shapes->circle;
    double least = geom::distance_to_edges(shapes->asked.outline, c.centre);
    for (const usable::PlanLine& line : shapes->asked.things)
      least = std::min(least, geom::distance_to_segment(c.centre, line.a, line.b));
    EXPECT_GT(c.radius, 0.5);
    EXPECT_LE(c.radius, least);
    // What else there is to touch are nodes it cannot live on, half a cell about each.
    const geom::Grid& g = shapes->asked.grid;
    for (std::size_t n = 0; n < g.size(); ++n) {
      if (shapes->asked.live[n] != 0) continue;
      const Vec2 p = g.node(static_cast<int>(n) % g.nx, static_cast<int>(n) / g.nx);
      least = std::min(least, geom::distance(c.centre, p) - 0.5 * g.cell);
    }
    EXPECT_NEAR(c.radius, least, 1.5 * g.cell);
  }
}

TEST(FreeShapes, OfAnotherBodyAreThoseAskedAnew) {
  std::mt19937 random(29);
  int taken = 0, anew = 0;
  for (int turn = 0; turn < 3; ++turn) {
    const Model model = yard_of_stones(random, 12);
    const auto known = shapes_of(model);
    for (const double wade : {0.05, 0.06})
      for (const double height : {0.2, 0.5}) {
        Model other = model;
        other.site.species.wade_depth.value = wade;
        other.site.species.body.value[2] = height;
        const auto again = shapes_of(other, known);
        const auto fresh = shapes_of(other);
        (again == known ? taken : anew) += 1;
        EXPECT_EQ(again->circle.radius, fresh->circle.radius);
        EXPECT_TRUE(again->circle.centre == fresh->circle.centre);
        EXPECT_EQ(again->rectangle.area(), fresh->rectangle.area());
        EXPECT_TRUE(again->rectangle.centre == fresh->rectangle.centre);
        EXPECT_EQ(again->rectangle.turn, fresh->rectangle.turn);
      }
  }
  EXPECT_EQ(taken, 6);
  EXPECT_EQ(anew, 6);
}

// Another height of it is another list of lines, and so another answer where there are things.
TEST(FreeShapes, AnotherBodyOfAWholeResultIsThatOfItsOwnModel) {
  std::mt19937 random(31);
  const Model model = yard_of_stones(random, 20);
  const space::Result known = space::analyse(model);
  Model other = model;
  other.site.species.body.value = {1.2, 0.5, 0.6};
  const space::Result again = space::with_another_body(other, known);
  const space::Result fresh = space::analyse(other);
  EXPECT_NE(again.usable_area_m2, known.usable_area_m2);
  EXPECT_EQ(again.usable_area_m2, fresh.usable_area_m2);
  EXPECT_EQ(again.outdoor_area_m2, fresh.outdoor_area_m2);
  EXPECT_EQ(again.largest_circle.radius, fresh.largest_circle.radius);
  EXPECT_EQ(again.largest_rectangle.area(), fresh.largest_rectangle.area());
}

}  // namespace
}  // namespace hummock
