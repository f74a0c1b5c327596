#include "viewer/scene/camera.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace hummock::viewer {
namespace {

constexpr View kView{1280, 800};

Camera some_camera(std::mt19937& random) {
  std::uniform_real_distribution<double> u(-1.0, 1.0);
  Camera c;
  c.target = {5 * u(random), 5 * u(random), u(random)};
  c.heading = 3.0 * u(random);
  c.tilt = 0.6 + 0.5 * u(random);
  c.distance = 15.0 + 5.0 * u(random);
  return c;
}

// A point ahead, some way off the middle of the view.
Vec3 some_point(const Camera& c, std::mt19937& random) {
  std::uniform_real_distribution<double> u(-3.0, 3.0);
  return c.target + Vec3{u(random), u(random), 0.3 * u(random)};
}

TEST(Camera, looking_along_heading_zero_sees_east_on_the_right_and_up_above) {
  Camera c;
  c.tilt = 0.2;
  const Vec2 middle = project(c, kView, c.target).pixel;
  EXPECT_NEAR(middle.x, 639.5, 1e-6);
  EXPECT_NEAR(middle.y, 399.5, 1e-6);
  EXPECT_GT(project(c, kView, c.target + Vec3{1, 0, 0}).pixel.x, middle.x);
  EXPECT_LT(project(c, kView, c.target + Vec3{0, 0, 1}).pixel.y, middle.y);
}

TEST(Camera, the_ray_through_a_projected_point_passes_that_point) {
  std::mt19937 random(7);
  for (const Stance stance : {Stance::orbit, Stance::flat, Stance::walk})
    for (int i = 0; i < 200; ++i) {
      Camera c = some_camera(random);
      c.stance = stance;
      const Vec3 p = some_point(c, random);
      const OnScreen seen = project(c, kView, p);
      if (!seen.ahead) continue;
      const Sightline sight = through(c, kView, seen.pixel);
      const Vec3 arm = p - sight.origin;
      EXPECT_LT(geom::length(geom::cross(arm, sight.direction)), 1e-6);
    }
}

TEST(Camera, zooming_keeps_the_point_under_the_pointer) {
  std::mt19937 random(8);
  for (const Stance stance : {Stance::orbit, Stance::flat})
    for (int i = 0; i < 100; ++i) {
      Camera c = some_camera(random);
      c.stance = stance;
      const Vec3 p = some_point(c, random);
      const Vec2 before = project(c, kView, p).pixel;
      zoom(c, p, 0.7);
      EXPECT_LT(geom::distance(project(c, kView, p).pixel, before), 1e-6);
    }
}

TEST(Camera, panning_carries_the_point_grabbed_to_the_pointer) {
  std::mt19937 random(9);
  for (int i = 0; i < 100; ++i) {
    Camera c = some_camera(random);
    const Vec3 p = some_point(c, random);
    const Vec2 from = project(c, kView, p).pixel;
    const Vec2 to = from + Vec2{40, -25};
    pan(c, kView, p, from, to);
    EXPECT_LT(geom::distance(project(c, kView, p).pixel, to), 1e-6);
  }
}

TEST(Camera, orbiting_keeps_the_pivot_in_its_place_and_at_its_distance) {
  std::mt19937 random(10);
  for (int i = 0; i < 100; ++i) {
    Camera c = some_camera(random);
    const Vec3 pivot = some_point(c, random);
    const Vec2 before = project(c, kView, pivot).pixel;
    const double far_before = geom::distance(eye(c), pivot);
    orbit(c, kView, pivot, {35, 12});
    EXPECT_LT(geom::distance(project(c, kView, pivot).pixel, before), 1e-6);
    EXPECT_NEAR(geom::distance(eye(c), pivot), far_before, 1e-9);
  }
}

TEST(Camera, tilt_stops_short_of_straight_down_and_up) {
  Camera c;
  for (int i = 0; i < 50; ++i) orbit(c, kView, c.target, {0, 100});
  EXPECT_LT(c.tilt, geom::kPi / 2.0);
  EXPECT_TRUE(project(c, kView, c.target).ahead);
  for (int i = 0; i < 50; ++i) orbit(c, kView, c.target, {0, -100});
  EXPECT_GT(c.tilt, -geom::kPi / 2.0);
}

TEST(Camera, framing_brings_every_corner_of_the_box_into_the_picture) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> u(0.1, 9.0);
  for (const Stance stance : {Stance::orbit, Stance::flat})
    for (int i = 0; i < 100; ++i) {
      Camera c = some_camera(random);
      c.stance = stance;
      Box3 box;
      const Vec3 lo{u(random), u(random), u(random)};
      box.add(lo);
      box.add(lo + Vec3{u(random), u(random), u(random)});
      frame(c, kView, box);
      for (int k = 0; k < 8; ++k) {
        const Vec3 corner{k & 1 ? box.hi.x : box.lo.x, k & 2 ? box.hi.y : box.lo.y,
                          k & 4 ? box.hi.z : box.lo.z};
        const OnScreen seen = project(c, kView, corner);
        ASSERT_TRUE(seen.ahead);
        EXPECT_GE(seen.pixel.x, 0.0);
        EXPECT_LT(seen.pixel.x, kView.width);
        EXPECT_GE(seen.pixel.y, 0.0);
        EXPECT_LT(seen.pixel.y, kView.height);
      }
    }
}

TEST(Camera, the_plan_has_north_up_and_no_perspective) {
  Box3 box;
  box.add(Vec3{0, 0, 0});
  box.add(Vec3{12, 9, 3});
  Camera c;
  look_plan(c, kView, box);
  const Vec2 low = project(c, kView, {3, 2, 0}).pixel;
  const Vec2 high = project(c, kView, {3, 2, 3}).pixel;
  EXPECT_LT(geom::distance(low, high), 1e-2);
  EXPECT_LT(project(c, kView, {3, 5, 0}).pixel.y, low.y);
}

TEST(Camera, an_elevation_shows_true_heights) {
  Box3 box;
  box.add(Vec3{0, 0, 0});
  box.add(Vec3{12, 9, 3});
  Camera c;
  look_elevation(c, kView, box, 0.0);
  const double near_height =
      project(c, kView, {3, 0, 0}).pixel.y - project(c, kView, {3, 0, 2}).pixel.y;
  const double far_height =
      project(c, kView, {3, 9, 0}).pixel.y - project(c, kView, {3, 9, 2}).pixel.y;
  EXPECT_NEAR(near_height, far_height, 1e-6);
  EXPECT_NEAR(near_height, 2.0 / pixel_size(c, kView, {}), 1e-6);
}

TEST(Camera, walking_keeps_the_eye_at_its_height_and_goes_where_one_looks) {
  Camera c;
  stand(c, {1, 2, 1.5}, geom::kPi / 2.0);
  EXPECT_NEAR(eye(c).z, 1.5, 1e-12);
  step(c, 2.0, 0.0);
  EXPECT_NEAR(eye(c).x, 3.0, 1e-9);
  EXPECT_NEAR(eye(c).y, 2.0, 1e-9);
  set_eye_height(c, 0.2);
  EXPECT_NEAR(eye(c).z, 0.2, 1e-12);
}

TEST(Camera, a_flight_begins_near_its_start_and_ends_exactly_at_its_end) {
  std::mt19937 random(12);
  const Camera a = some_camera(random);
  const Camera b = some_camera(random);
  EXPECT_LT(geom::distance(eye(between(a, b, 0.0)), eye(a)), 1e-9);
  EXPECT_EQ(eye(between(a, b, 1.0)), eye(b));
}

}  // namespace
}  // namespace hummock::viewer
