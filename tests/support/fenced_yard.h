// Fenced models for tests, built in code.
#pragma once

#include <cmath>
#include <functional>
#include <memory>
#include <string>

#include "engine/model/model.h"
#include "geometry/mesh/column_solid.h"
#include "tests/support/surfaces.h"

namespace hummock::tests {

// Panels round the outline, posts at most `panel` apart, tops at `top(post)`.
inline void add_fence(Model& model, double panel, const std::function<double(Vec2)>& top) {
  Section section;
  section.name = "fence";
  const std::size_t n = model.outline.size();
  for (std::size_t k = 0; k < n; ++k) {
    section.edges.push_back(static_cast<int>(k));
    const Vec2 a = model.outline[k];
    const Vec2 b = model.outline[(k + 1) % n];
    const int count = static_cast<int>(std::ceil(geom::distance(a, b) / panel - 1e-9));
    for (int i = 0; i < count; ++i) {
      Panel p;
      p.edge = static_cast<int>(k);
      p.a = geom::lerp(a, b, static_cast<double>(i) / count);
      p.b = i + 1 == count ? b : geom::lerp(a, b, (i + 1.0) / count);
      p.ground_a = p.foot_a = geom::height_at(model.ground, p.a);
      p.ground_b = p.foot_b = geom::height_at(model.ground, p.b);
      p.top_a = top(p.a);
      p.top_b = top(p.b);
      model.panels.push_back(p);
    }
  }
  model.site.boundary.sections.push_back(section);
}

inline Part& add_solid(Model& model, const std::string& name, geom::Mesh mesh) {
  Part part;
  part.name = name;
  part.kind = PartKind::object;
  part.mesh = std::move(mesh);
  part.closed = true;
  model.parts.push_back(std::move(part));
  return model.parts.back();
}

inline Part& add_roof(Model& model, geom::Mesh sheet) {
  Part part;
  part.name = "roof";
  part.kind = PartKind::roof;
  part.surface = Surface::mesh;
  part.mesh = std::move(sheet);
  model.parts.push_back(std::move(part));
  return model.parts.back();
}

inline geom::Mesh box(Vec3 lo, Vec3 hi) {
  return geom::prism_on(rectangle(lo.x, lo.y, hi.x, hi.y), lo.z, hi.z);
}

// A closed lumpy stone: a sphere of latitude bands with its radius waved; star-shaped.
inline geom::Mesh stone(Vec3 centre, double radius, double wave, int bands) {
  geom::Mesh out;
  const int around = 2 * bands;
  const auto point = [&](double lat, double lon) {
    const double r = radius * (1.0 + wave * std::sin(3 * lon) * std::cos(2 * lat));
    return centre + Vec3{r * std::cos(lat) * std::cos(lon), r * std::cos(lat) * std::sin(lon),
                         r * std::sin(lat)};
  };
  out.vertices.push_back(point(-geom::kPi / 2, 0));
  for (int b = 1; b < bands; ++b)
    for (int a = 0; a < around; ++a)
      out.vertices.push_back(
          point(-geom::kPi / 2 + geom::kPi * b / bands, 2 * geom::kPi * a / around));
  out.vertices.push_back(point(geom::kPi / 2, 0));
  const auto top = static_cast<std::uint32_t>(out.vertices.size() - 1);
  const auto id = [&](int b, int a) {
    return static_cast<std::uint32_t>(1 + (b - 1) * around + a % around);
  };
  for (int a = 0; a < around; ++a) {
    out.triangles.push_back({0, id(1, a + 1), id(1, a)});
    out.triangles.push_back({top, id(bands - 1, a), id(bands - 1, a + 1)});
    for (int b = 1; b + 1 < bands; ++b) {
      out.triangles.push_back({id(b, a), id(b, a + 1), id(b + 1, a + 1)});
      out.triangles.push_back({id(b, a), id(b + 1, a + 1), id(b + 1, a)});
    }
  }
  return out;
}

// Ground and body-blocking parts into the ray scene, as the model's builder does.
inline void commit_scene(Model& model) {
  auto scene = std::make_shared<geom::RayScene>();
  scene->add_ground(model.ground, kGroundId);
  for (std::size_t k = 0; k < model.parts.size(); ++k)
    if (model.parts[k].blocks_body) scene->add_mesh(model.parts[k].mesh, static_cast<int>(k));
  scene->commit();
  model.body_scene = scene;
}

}  // namespace hummock::tests
