// Pictures against kept ones, with tolerance: another driver may round otherwise, a light or a
// colour that changed may not pass. Look at a picture before keeping it anew:
// HUMMOCK_KEEP_PICTURES=tests/viewer/pictures build/bin/test_viewer
#include <gtest/gtest.h>

#include <cstdlib>

#include "small_yard.h"
#include "viewer/draw/offscreen_context.h"
#include "viewer/draw/picture.h"
#include "viewer/draw/renderer.h"

namespace hummock::viewer {
namespace {

struct KeptPictures : testing::Test {
  OffscreenContext context;
  std::shared_ptr<Model> model = viewer_test::small_yard();
  std::shared_ptr<const Scene> scene;
  Renderer renderer;
  FrameTarget target;
  DrawSettings settings;

  KeptPictures() {
    auto made = std::make_shared<Scene>(build_scene(*model));
    shade_corners(*made, *model, 16, 1.6, {});
    scene = made;
    renderer.set_scene(scene, model);
    target.resize(320, 200, 4);
    settings.camera.reach = 30.0;
    settings.camera.heading = 0.5;
    frame(settings.camera, {320, 200}, scene->yard);
  }

  void compare(const std::string& name) {
    renderer.draw(target, settings);
    const Pixels now = target.read();
    if (const char* keep = std::getenv("HUMMOCK_KEEP_PICTURES")) {
      save_png(std::string(keep) + "/" + name, now);
      return;
    }
    const Pixels kept = read_png(std::string(HUMMOCK_VIEWER_TEST_DATA) + "/pictures/" + name);
    const PictureDifference d = difference(now, kept);
    EXPECT_LT(d.mean, 3.0) << name;
    EXPECT_LT(d.changed_share, 0.04) << name;
  }
};

TEST_F(KeptPictures, the_yard_in_the_sun) {
  compare("yard.png");
}

TEST_F(KeptPictures, the_plan) {
  look_plan(settings.camera, {320, 200}, scene->yard);
  compare("plan.png");
}

TEST_F(KeptPictures, the_yard_cut_open) {
  settings.cut = {0.0, 1.0, 0.0, -2.0};
  compare("cut.png");
}

TEST_F(KeptPictures, a_map_on_the_ground) {
  LayerPaint paint;
  paint.raster = geom::Raster(model->ground.grid);
  for (int j = 0; j < paint.raster.grid.ny; ++j)
    for (int i = 0; i < paint.raster.grid.nx; ++i)
      if (geom::contains(model->outline, paint.raster.grid.node(i, j)))
        paint.raster.at(i, j) = static_cast<float>(model->ground.at(i, j));
  paint.high = 0.9;
  renderer.set_layer(paint);
  compare("map.png");
}

}  // namespace
}  // namespace hummock::viewer
