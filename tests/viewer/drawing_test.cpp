// Pictures without a window.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>

#include "small_yard.h"
#include "viewer/draw/gl_debug.h"
#include "viewer/draw/offscreen_context.h"
#include "viewer/draw/picture.h"
#include "viewer/draw/renderer.h"
#include "viewer/scene/picking.h"

namespace hummock::viewer {
namespace {

struct Drawing : testing::Test {
  OffscreenContext context;
  std::shared_ptr<Model> model = viewer_test::small_yard();
  std::shared_ptr<const Scene> scene = std::make_shared<Scene>(build_scene(*model));
  Renderer renderer;
  FrameTarget target;
  DrawSettings settings;

  Drawing() {
    renderer.set_scene(scene, model);
    target.resize(480, 300, 1);
    settings.camera.reach = 30.0;
    settings.camera.heading = 0.5;
    frame(settings.camera, {480, 300}, scene->yard);
  }
  ~Drawing() override { EXPECT_EQ(gl_errors().count, 0) << gl_errors().first; }

  Pixels draw() {
    renderer.draw(target, settings);
    return target.read();
  }
};

std::array<int, 3> pixel(const Pixels& p, Vec2 at) {
  const auto x = static_cast<std::size_t>(std::lround(at.x));
  const auto y = static_cast<std::size_t>(p.height - 1 - std::lround(at.y));
  const std::size_t i = (y * static_cast<std::size_t>(p.width) + x) * 4;
  return {p.rgba[i], p.rgba[i + 1], p.rgba[i + 2]};
}

int brightness(const std::array<int, 3>& c) {
  return c[0] + c[1] + c[2];
}

void expect_same(const Scene& a, const Scene& b) {
  ASSERT_EQ(a.drawables.size(), b.drawables.size());
  for (std::size_t k = 0; k < a.drawables.size(); ++k) {
    const Drawable& x = a.drawables[k];
    const Drawable& y = b.drawables[k];
    EXPECT_EQ(x.name, y.name);
    EXPECT_EQ(x.part, y.part);
    EXPECT_EQ(x.indices, y.indices) << x.name;
    EXPECT_EQ(x.coarse, y.coarse) << x.name;
    EXPECT_EQ(x.middle, y.middle) << x.name;
    ASSERT_EQ(x.vertices.size(), y.vertices.size()) << x.name;
    for (std::size_t v = 0; v < x.vertices.size(); ++v) {
      EXPECT_EQ(x.vertices[v].position, y.vertices[v].position) << x.name;
      EXPECT_EQ(x.vertices[v].normal, y.vertices[v].normal) << x.name;
    }
  }
  EXPECT_EQ(a.inside, b.inside);
  EXPECT_EQ(a.triangles, b.triangles);
  EXPECT_EQ(a.box.hi, b.box.hi);
  EXPECT_EQ(a.yard.lo, b.yard.lo);
}

TEST_F(Drawing, a_scene_made_with_the_one_before_is_the_one_made_from_nothing) {
  Model moved = *model;  // each change alone and with those before it
  const Drawn before{*model, *scene};
  const auto check = [&] { expect_same(build_scene(moved, &before), build_scene(moved)); };
  check();
  for (Vec3& v : moved.parts[0].mesh.vertices) v.x += 0.25;
  moved.parts[1].openness = 0.5;
  check();
  moved.outline[0].x += 0.5;
  check();
  moved.ground.z[moved.ground.z.size() / 2] += 0.5;
  check();
  moved.parts.erase(moved.parts.begin());  // indices shift
  check();
  moved.parts.push_back(model->parts[0]);
  moved.parts.push_back(model->parts[0]);  // more than there were
  check();
}

TEST_F(Drawing, the_yard_is_not_an_empty_sky) {
  const Pixels full = draw();
  settings.camera.tilt = -1.2;  // look up
  settings.camera.target = {5, 5, 50};
  const Pixels sky = draw();
  EXPECT_GT(difference(full, sky).changed_share, 0.3);
}

TEST_F(Drawing, the_same_scene_draws_the_same_picture) {
  const Pixels a = draw();
  const Pixels b = draw();
  EXPECT_EQ(a.rgba, b.rgba);
}

TEST_F(Drawing, a_block_throws_its_shadow_away_from_the_sun) {
  settings.show.fence = false;
  settings.grid = 0.0;
  settings.to_sun = geom::unit(Vec3{-1.0, 0.0, 1.0});  // from the west at 45°
  const Pixels picture = draw();
  const View view{480, 300};
  // The block is 0.9 m high with its east face at x = 3.7: shadow to x = 4.6.
  const auto shaded = pixel(picture, project(settings.camera, view, {4.2, 2.0, 0.0}).pixel);
  const auto lit = pixel(picture, project(settings.camera, view, {5.2, 2.0, 0.0}).pixel);
  EXPECT_LT(brightness(shaded), brightness(lit) - 60);
}

TEST_F(Drawing, with_the_sun_below_the_horizon_nothing_is_in_shadow_but_all_is_darker) {
  settings.show.fence = false;
  settings.grid = 0.0;
  settings.to_sun = geom::unit(Vec3{-1.0, 0.0, 1.0});
  const View view{480, 300};
  const Vec2 spot = project(settings.camera, view, {5.2, 2.0, 0.0}).pixel;
  const int day = brightness(pixel(draw(), spot));
  settings.to_sun = geom::unit(Vec3{-1.0, 0.0, -0.3});
  EXPECT_LT(brightness(pixel(draw(), spot)), day - 60);
}

TEST_F(Drawing, a_layer_paints_the_ground_with_the_colour_of_its_value) {
  settings.show.fence = false;
  settings.grid = 0.0;
  LayerPaint paint;
  paint.raster = geom::Raster(model->ground.grid, 0.0F);
  for (int j = 0; j < paint.raster.grid.ny; ++j)
    for (int i = 0; i < paint.raster.grid.nx; ++i)
      paint.raster.at(i, j) = paint.raster.grid.node(i, j).x < 6.0 ? 0.0F : 1.0F;
  renderer.set_layer(paint);
  const Pixels picture = draw();
  const View view{480, 300};
  const int dark = brightness(pixel(picture, project(settings.camera, view, {5.0, 5.0, 0}).pixel));
  const int light =
      brightness(pixel(picture, project(settings.camera, view, {11.0, 3.5, 0}).pixel));
  EXPECT_GT(light, dark + 150);
}

TEST_F(Drawing, a_cutting_plane_takes_away_what_lies_before_it) {
  const Pixels whole = draw();
  settings.cut = {0.0, 1.0, 0.0, -4.0};
  const Pixels cut = draw();
  EXPECT_GT(difference(whole, cut).changed_share, 0.1);
}

TEST_F(Drawing, smoothed_edges_need_no_other_call) {
  target.resize(480, 300, 4);
  const Pixels smooth = draw();
  target.resize(480, 300, 1);
  const Pixels plain = draw();
  EXPECT_LT(difference(smooth, plain).mean, 6.0);
}

TEST_F(Drawing, a_picture_written_and_read_is_the_same) {
  const auto file = std::filesystem::temp_directory_path() / "hummock_drawing_test.png";
  const Pixels picture = draw();
  save_png(file, picture);
  const Pixels back = read_png(file);
  std::filesystem::remove(file);
  EXPECT_EQ(difference(picture, back).mean, 0.0);
}

TEST_F(Drawing, the_pointer_picks_what_is_drawn_there) {
  const Picker picker(model);
  const View view{480, 300};
  const Vec2 on_block = project(settings.camera, view, {3.0, 2.0, 0.9}).pixel;
  const auto block = picker.pick(through(settings.camera, view, on_block), settings, true);
  ASSERT_TRUE(block.has_value());
  EXPECT_EQ(block->part, 0);
  EXPECT_NEAR(block->at.z, 0.9, 1e-3);
  settings.show.objects = false;
  const auto ground = picker.pick(through(settings.camera, view, on_block), settings, true);
  ASSERT_TRUE(ground.has_value());
  EXPECT_EQ(ground->part, -1);
}

TEST_F(Drawing, one_picks_through_the_wire_but_can_also_pick_the_wire) {
  const Picker picker(model);
  const View view{480, 300};
  look_elevation(settings.camera, view, scene->yard, 0.0);
  const Sightline sight =
      through(settings.camera, view, project(settings.camera, view, {3, 2, 0.5}).pixel);
  EXPECT_EQ(picker.pick(sight, settings, true)->part, 0);
  const auto wire = picker.pick(sight, settings, false);
  EXPECT_EQ(model->parts[static_cast<std::size_t>(wire->part)].kind, PartKind::panel);
}

TEST_F(Drawing, corner_shade_is_darker_at_the_foot_of_the_block_than_in_the_open) {
  Scene shaded = *scene;
  shade_corners(shaded, *model, 24, 2.0, {});
  const auto& grid = model->ground.grid;
  const auto at = [&](double x, double y) {
    return shaded.drawables[0]
        .open[grid.index(static_cast<int>(std::lround((x - grid.x0) / grid.cell)),
                         static_cast<int>(std::lround((y - grid.y0) / grid.cell)))];
  };
  EXPECT_LT(at(3.8, 2.0), at(-2.0, -2.0) - 40);
}

}  // namespace
}  // namespace hummock::viewer
