// Draws a scene into a frame target with OpenGL 3.3 core. Needs a current context, from a window or
// from OffscreenContext: it cannot tell which.
//
// Sunlight with one shadow map (parallel light, percentage-closer filtering) over a sky of even
// light dimmed by the scene's corner shade. The shadow on the screen is for the eye: figures of
// shade come from engine/shade, by rays.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "geometry/plan/grid.h"
#include "viewer/draw/frame_target.h"
#include "viewer/draw/strokes.h"
#include "viewer/scene/scene.h"
#include "viewer/scene/visibility.h"

namespace hummock::viewer {

struct LayerPaint {
  geom::Raster raster;  // on the ground
  Scale scale = Scale::rising;
  double low = 0.0;
  double high = 1.0;
  bool slope = false;                    // the slope of every surface, from its own normals
  std::map<std::int32_t, double> parts;  // part → its one value (tops of objects)
};

struct DrawSettings {
  Camera camera;
  geom::Vec3 to_sun{0.3, -0.4, 0.8};
  bool shadows = true;
  bool coarse = false;  // fewer triangles, cheaper shadow: while moving
  std::array<double, 4> cut{0, 0, 0, 0};
  double grid = 1.0;     // m, 0 = none
  double contour = 0.0;  // m, 0 = none
  Show show;
  std::map<std::int32_t, Colour> tint;    // part → colour mixed in by its alpha
  std::map<std::int32_t, Matrix4> moved;  // part → where it is dragged to
};

class Renderer {
 public:
  Renderer();
  ~Renderer();
  Renderer(const Renderer&) = delete;
  Renderer& operator=(const Renderer&) = delete;

  void set_scene(std::shared_ptr<const Scene> scene, std::shared_ptr<const Model> model);
  // Of this scene or one like it: drawables of the same name and size take it over.
  void set_corner_shade(const Scene& scene);
  void set_layer(std::optional<LayerPaint> layer);
  void set_strokes(std::vector<Stroke> strokes);
  void set_veils(const std::vector<Drawable>& veils);  // see-through surfaces: reach, tunnels
  void draw(FrameTarget& target, const DrawSettings& settings);

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace hummock::viewer
