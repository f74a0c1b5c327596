#include "small_yard.h"

#include <cmath>

namespace hummock::viewer_test {
namespace {

using geom::Mesh;
using geom::Vec2;
using geom::Vec3;

Mesh box(Vec3 lo, Vec3 hi) {
  Mesh m;
  const auto corner = [&](int k) {
    return Vec3{k & 1 ? hi.x : lo.x, k & 2 ? hi.y : lo.y, k & 4 ? hi.z : lo.z};
  };
  const int quads[6][4] = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4},
                           {1, 3, 7, 5}, {3, 2, 6, 7}, {2, 0, 4, 6}};
  for (const auto& q : quads)
    geom::append_quad(m, corner(q[0]), corner(q[1]), corner(q[2]), corner(q[3]));
  return geom::weld(m, 0.0);
}

Mesh ball(Vec3 centre, Vec3 half) {
  Mesh m;
  constexpr int kRound = 24;
  constexpr int kUp = 12;
  const auto at = [&](int i, int j) {
    const double a = 2.0 * geom::kPi * i / kRound;
    const double b = geom::kPi * (j / double{kUp} - 0.5);
    return centre + Vec3{half.x * std::cos(a) * std::cos(b), half.y * std::sin(a) * std::cos(b),
                         half.z * std::sin(b)};
  };
  for (int j = 0; j < kUp; ++j)
    for (int i = 0; i < kRound; ++i)
      geom::append_quad(m, at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
  return geom::weld(m, 1e-9);
}

void add_panel(Model& model, Vec2 a, Vec2 b) {
  const double ga = geom::height_at(model.ground, a);
  const double gb = geom::height_at(model.ground, b);
  Part part;
  part.name = "run";
  part.kind = PartKind::panel;
  part.surface = Surface::mesh;
  part.openness = 0.8;
  part.sight = 0.8;
  part.aperture = 0.05;
  part.wire = 0.003;
  geom::append_quad(part.mesh, geom::at_height(a, ga), geom::at_height(b, gb),
                    geom::at_height(b, gb + 2.4), geom::at_height(a, ga + 2.4));
  model.panels.push_back(
      {0, 0, a, b, ga, gb, ga, gb, ga + 2.4, gb + 2.4, static_cast<int>(model.parts.size())});
  model.parts.push_back(part);
  Part post = part;
  post.kind = PartKind::post;
  post.surface = Surface::smooth;
  post.aperture = 0.0;
  post.openness = 0.0;
  post.sight = 0.0;
  post.closed = true;
  post.mesh = box({a.x - 0.04, a.y - 0.04, ga}, {a.x + 0.04, a.y + 0.04, ga + 2.4});
  model.parts.push_back(post);
}

}  // namespace

std::shared_ptr<Model> small_yard() {
  auto model = std::make_shared<Model>();
  geom::Box2 area;
  area.add(Vec2{-3, -3});
  area.add(Vec2{15, 12});
  model->ground = geom::level_ground(area, 0.1, 0.0);
  for (int j = 0; j < model->ground.grid.ny; ++j)
    for (int i = 0; i < model->ground.grid.nx; ++i) {
      const double d = geom::distance(model->ground.grid.node(i, j), Vec2{8, 6});
      if (d < 2.5) model->ground.at(i, j) += 0.45 * (1.0 + std::cos(geom::kPi * d / 2.5));
    }
  model->surveyed = model->ground;
  model->outline = {{0, 0}, {12, 0}, {12, 9}, {0, 9}};
  model->site.boundary.outline = model->outline;

  Part boulder;
  boulder.name = "block";
  boulder.kind = PartKind::object;
  boulder.surface = Surface::rock;
  boulder.closed = true;
  boulder.source = 0;
  boulder.mesh = box({2.3, 1.45, 0.0}, {3.7, 2.55, 0.9});
  model->parts.push_back(boulder);
  model->object_part.push_back(0);
  Object object;
  object.name = "block";
  object.at = {3, 2};
  object.size = {1.4, 1.1, 0.9};
  model->site.objects.push_back(object);
  Part crown;
  crown.name = "tree";
  crown.kind = PartKind::crown;
  crown.surface = Surface::leaf;
  crown.closed = true;
  crown.blocks_body = false;
  crown.leaf_density = 1.2;
  crown.mesh = ball({9, 2.5, 2.6}, {1.2, 1.2, 1.0});
  model->parts.push_back(crown);

  const Vec2 corners[] = {{0, 0}, {12, 0}, {12, 9}, {0, 9}, {0, 0}};
  for (int e = 0; e < 4; ++e) {
    const double l = geom::distance(corners[e], corners[e + 1]);
    const int n = static_cast<int>(std::ceil(l / 2.0));
    for (int k = 0; k < n; ++k)
      add_panel(*model, geom::lerp(corners[e], corners[e + 1], k / double(n)),
                geom::lerp(corners[e], corners[e + 1], (k + 1) / double(n)));
  }
  Part overhang = model->parts[2];
  overhang.kind = PartKind::overhang;
  overhang.mesh = {};
  geom::append_quad(overhang.mesh, {0, 0, 2.4}, {12, 0, 2.4}, {12, 0.69, 2.98}, {0, 0.69, 2.98});
  model->parts.push_back(overhang);

  geom::RayScene rays;
  rays.add_ground(model->ground, kGroundId);
  for (std::size_t i = 0; i < model->parts.size(); ++i)
    if (model->parts[i].blocks_body) rays.add_mesh(model->parts[i].mesh, static_cast<int>(i));
  rays.commit();
  model->body_scene = std::make_shared<const geom::RayScene>(std::move(rays));
  return model;
}

}  // namespace hummock::viewer_test
