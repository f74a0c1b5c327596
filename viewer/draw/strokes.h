// Lines of a width in pixels over the scene: routes, tunnels, sight lines, outlines.
#pragma once

#include <vector>

#include "viewer/scene/camera.h"
#include "viewer/scene/colour.h"

namespace hummock::viewer {

struct Stroke {
  std::vector<geom::Vec3> points;
  Colour colour;
  double width = 2.5;   // pixels
  double dash = 0.0;    // m drawn and m left out; 0 = whole
  bool arrow = false;   // a head at the last point
  bool through = true;  // shows faintly through what stands before it
};

struct StrokeVertex {
  float position[3];
  float colour[4];
};

// Triangles facing the camera.
std::vector<StrokeVertex> stroke_triangles(const std::vector<Stroke>& strokes, const Camera& camera,
                                           View view);

}  // namespace hummock::viewer
