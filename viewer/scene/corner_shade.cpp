// Soft shade where things meet: for each vertex, how much of the hemisphere is free close by.
#include <cmath>

#include "viewer/scene/scene.h"

namespace hummock::viewer {
namespace {

using geom::Vec3;

// Directions spread evenly by solid angle × cosine (Fibonacci on the disc, lifted).
std::vector<Vec3> lobe(int rays) {
  std::vector<Vec3> out;
  for (int k = 0; k < rays; ++k) {
    const double r = std::sqrt((k + 0.5) / rays);
    const double a = k * 2.39996322972865332;
    out.push_back({r * std::cos(a), r * std::sin(a), std::sqrt(std::max(0.0, 1.0 - r * r))});
  }
  return out;
}

std::uint8_t open_share(const geom::RayScene& rays, const std::vector<Vec3>& directions, Vec3 at,
                        Vec3 n, double reach) {
  const Vec3 side = std::abs(n.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  const Vec3 u = geom::unit(geom::cross(side, n));
  const Vec3 v = geom::cross(n, u);
  int free = 0;
  for (const Vec3 d : directions) {
    const Vec3 way = u * d.x + v * d.y + n * d.z;
    if (!rays.occluded({at + n * 0.01, way, 0.0, reach})) ++free;
  }
  return static_cast<std::uint8_t>(255 * free / static_cast<int>(directions.size()));
}

}  // namespace

void shade_corners(Scene& scene, const Model& model, int rays, double reach,
                   const Progress& progress) {
  if (!model.body_scene) return;
  const std::vector<Vec3> directions = lobe(rays);
  for (auto& d : scene.drawables) {
    if (d.see_through || d.part < 0) {
      if (d.pattern != Pattern::ground) continue;
    }
    d.open.assign(d.vertices.size(), 255);
    for (std::size_t i = 0; i < d.vertices.size(); ++i) {
      if (i % 4096 == 0) progress.step("corner shade", 0.0);
      const auto& v = d.vertices[i];
      d.open[i] =
          open_share(*model.body_scene, directions, {v.position[0], v.position[1], v.position[2]},
                     {v.normal[0], v.normal[1], v.normal[2]}, reach);
    }
  }
}

}  // namespace hummock::viewer
