#include "viewer/draw/strokes.h"

#include <algorithm>
#include <cmath>

namespace hummock::viewer {
namespace {

using geom::Vec3;

struct Brush {
  const Camera& camera;
  View view;
  std::vector<StrokeVertex>& out;

  void vertex(Vec3 p, Colour c) const {
    out.push_back({{static_cast<float>(p.x), static_cast<float>(p.y), static_cast<float>(p.z)},
                   {c.r, c.g, c.b, c.a}});
  }
  // Across the line, square to the sight.
  Vec3 aside(Vec3 a, Vec3 b) const {
    const Vec3 sight = camera.stance == Stance::flat ? forward(camera) : a - eye(camera);
    return geom::unit(geom::cross(b - a, sight));
  }
  void segment(Vec3 a, Vec3 b, const Stroke& s) const {
    const Vec3 side = aside(a, b);
    const Vec3 wa = side * (0.5 * s.width * pixel_size(camera, view, a));
    const Vec3 wb = side * (0.5 * s.width * pixel_size(camera, view, b));
    for (const Vec3 p : {a - wa, b - wb, b + wb, a - wa, b + wb, a + wa}) vertex(p, s.colour);
  }
  void head(Vec3 from, Vec3 tip, const Stroke& s) const {
    const double size = 4.0 * s.width * pixel_size(camera, view, tip);
    const Vec3 back = geom::unit(from - tip) * size;
    const Vec3 side = aside(from, tip) * (0.45 * size);
    for (const Vec3 p : {tip, tip + back - side, tip + back + side}) vertex(p, s.colour);
  }
};

void lay(const Stroke& s, const Brush& brush) {
  double along = 0.0;
  for (std::size_t i = 1; i < s.points.size(); ++i) {
    const Vec3 a = s.points[i - 1];
    const Vec3 b = s.points[i];
    const double l = geom::distance(a, b);
    if (l < 1e-9) continue;
    if (s.dash <= 0.0) {
      brush.segment(a, b, s);
      continue;
    }
    const double first = -std::fmod(along, 2.0 * s.dash);
    const int dashes = static_cast<int>(std::ceil((l - first) / (2.0 * s.dash)));
    for (int k = 0; k < dashes; ++k) {
      const double t = first + 2.0 * s.dash * k;
      const double from = std::max(t, 0.0);
      const double to = std::min(t + s.dash, l);
      if (to > from) brush.segment(geom::lerp(a, b, from / l), geom::lerp(a, b, to / l), s);
    }
    along += l;
  }
  if (s.arrow && s.points.size() > 1) brush.head(s.points[s.points.size() - 2], s.points.back(), s);
}

}  // namespace

std::vector<StrokeVertex> stroke_triangles(const std::vector<Stroke>& strokes, const Camera& camera,
                                           View view) {
  std::vector<StrokeVertex> out;
  const Brush brush{camera, view, out};
  for (const Stroke& s : strokes) lay(s, brush);
  return out;
}

}  // namespace hummock::viewer
