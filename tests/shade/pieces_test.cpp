// The few flat pieces a caster is cut into, against its triangles.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/cast/fast_exp.h"
#include "engine/shade/cast/flat_faces.h"
#include "engine/shade/cast/piece.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

double area_of(const Piece& p) {
  double sum = 0.0;
  for (const PieceFace& f : p.faces)
    for (std::uint32_t k = 1; k + 1 < f.count; ++k) {
      const Vec3 a = p.points[p.corners[f.first]];
      sum += 0.5 * length(cross(p.points[p.corners[f.first + k]] - a,
                                p.points[p.corners[f.first + k + 1]] - a));
    }
  return sum;
}

std::size_t count(const Pieces& pieces, PieceKind kind) {
  std::size_t n = 0;
  for (const Piece& p : pieces.all) n += p.kind == kind ? 1 : 0;
  return n;
}

Caster caster_of(const geom::Mesh& mesh, CasterKind kind, bool closed) {
  Caster c;
  c.kind = kind;
  c.mesh = &mesh;
  c.closed = closed;
  c.openness = kind == CasterKind::sheet ? 0.5 : 0.0;
  for (const geom::Triangle& t : mesh.triangles)
    c.normals.push_back(unit(cross(mesh.vertices[t[1]] - mesh.vertices[t[0]],
                                   mesh.vertices[t[2]] - mesh.vertices[t[0]])));
  return c;
}

TEST(Pieces, a_box_is_one_solid_of_six_faces) {
  const geom::Mesh mesh = box_mesh({0, 0, 0}, {1, 2, 3});
  const Pieces pieces = pieces_of(caster_of(mesh, CasterKind::opaque, true));
  ASSERT_EQ(pieces.all.size(), 1U);
  EXPECT_EQ(pieces.all[0].kind, PieceKind::solid);
  EXPECT_EQ(pieces.all[0].faces.size(), 6U);
  EXPECT_NEAR(area_of(pieces.all[0]), 22.0, 1e-12);
}

TEST(Pieces, bodies_that_are_not_convex_keep_their_faces) {
  geom::Mesh mesh = box_mesh({0, 0, 0}, {1, 1, 1});
  for (geom::Vec3& v : mesh.vertices)
    if (v.x > 0.5 && v.y > 0.5 && v.z > 0.5) v = {0.2, 0.2, 0.2};
  const Pieces pieces = pieces_of(caster_of(mesh, CasterKind::opaque, true));
  EXPECT_EQ(count(pieces, PieceKind::solid), 0U);
  EXPECT_GT(count(pieces, PieceKind::faces), 0U);
}

// A fence of quads a step wide: top straight over each panel, foot by the ground.
geom::Mesh fence(int panels, int steps, const std::function<double(double)>& foot) {
  geom::Mesh mesh;
  const Vec2 way = unit(Vec2{3.0, 1.0}), at{1.7, 0.4};
  for (int p = 0; p < panels; ++p)
    for (int s = 0; s < steps; ++s) {
      const double u0 = p * 2.0 + 2.0 * s / steps, u1 = p * 2.0 + 2.0 * (s + 1.0) / steps;
      const auto top = [&](double u) { return 2.0 + 0.1 * p + 0.03 * p * (u - 2.0 * p); };
      append_quad(mesh, geom::at_height(at + way * u0, foot(u0)),
                  geom::at_height(at + way * u1, foot(u1)), geom::at_height(at + way * u1, top(u1)),
                  geom::at_height(at + way * u0, top(u0)));
    }
  return mesh;
}

TEST(Pieces, a_fence_is_a_curtain_a_panel) {
  const geom::Mesh mesh = fence(5, 20, [](double u) { return 0.1 * std::sin(1.3 * u); });
  const Pieces pieces = pieces_of(caster_of(mesh, CasterKind::sheet, false));
  EXPECT_EQ(count(pieces, PieceKind::curtain), 5U);
  EXPECT_EQ(pieces.all.size(), 5U);
  for (const Piece& p : pieces.all) EXPECT_EQ(p.foot.size(), 21U);
}

TEST(Pieces, level_panels_are_one_curtain) {
  geom::Mesh mesh;
  for (int p = 0; p < 6; ++p)
    append_quad(mesh, {2.0 * p, 1, 0}, {2.0 * p + 2, 1, 0}, {2.0 * p + 2, 1, 2}, {2.0 * p, 1, 2});
  const Pieces pieces = pieces_of(caster_of(mesh, CasterKind::sheet, false));
  ASSERT_EQ(pieces.all.size(), 1U);
  EXPECT_TRUE(pieces.all[0].foot.empty());
  EXPECT_NEAR(area_of(pieces.all[0]), 24.0, 1e-12);
}

TEST(Pieces, sheets_over_each_other_or_with_a_window_stay_as_they_are) {
  geom::Mesh twice, window;
  for (int k = 0; k < 2; ++k) {
    append_quad(twice, {0.0 + k, 1, 0}, {2.0 + k, 1, 0}, {2.0 + k, 1, 2}, {0.0 + k, 1, 2});
    append_quad(window, {0, 1, 1.5 * k}, {2, 1, 1.5 * k}, {2, 1, 1.5 * k + 1}, {0, 1, 1.5 * k + 1});
  }
  for (const geom::Mesh* mesh : {&twice, &window}) {
    const Pieces pieces = pieces_of(caster_of(*mesh, CasterKind::sheet, false));
    EXPECT_EQ(count(pieces, PieceKind::curtain), 0U);
    double area = 0.0;
    for (const Piece& p : pieces.all) area += area_of(p);
    EXPECT_NEAR(area, surface_area(*mesh), 1e-12);
  }
}

TEST(FlatFaces, cover_what_the_triangles_cover) {
  const geom::Mesh mesh = ellipsoid({0, 0, 1}, {1, 1, 1}, 24);
  const Caster c = caster_of(mesh, CasterKind::opaque, true);
  std::vector<std::uint32_t> all;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k) all.push_back(std::uint32_t(k));
  double area = 0.0;
  for (const FlatFace& f : flat_faces(mesh, c.normals, all))
    for (std::size_t k = 1; k + 1 < f.corners.size(); ++k)
      area += 0.5 * length(cross(mesh.vertices[f.corners[k]] - mesh.vertices[f.corners[0]],
                                 mesh.vertices[f.corners[k + 1]] - mesh.vertices[f.corners[0]]));
  EXPECT_NEAR(area, surface_area(mesh), 1e-9);
}

// Nodes that the fast path and the rays light differently, away from every edge by the rays' own
// witness: the beam a millimetre to either side is the same.
double differing(const Model& m, const SunRay& sun) {
  const FastBeam fast(m);
  const sun::Date date{2026, 6, 21};
  double nodes = 0, off = 0;
  TileBeam quick;
  for (const Tile& tile : ground_tiles(m, m.ground.grid)) {
    fast.tile(tile, sun, date, quick);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tile.inside[k] == 0) continue;
      const Vec3 p = tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]};
      const double at = fast.rays().at(p, sun, date);
      bool sure = true;
      for (const Vec3 d :
           {Vec3{1e-3, 0, 0}, Vec3{-1e-3, 0, 0}, Vec3{0, 1e-3, 0}, Vec3{0, -1e-3, 0}})
        sure = sure && std::abs(fast.rays().at(p + d, sun, date) - at) < 1e-3;
      if (!sure || !faces(tile, k, sun)) continue;
      nodes += 1;
      off += std::abs(quick.at(k) - at) > 1e-3 ? 1 : 0;
    }
  }
  return nodes > 0 ? off / nodes : 1.0;
}

TEST(Pieces, random_fences_posts_and_crowns_shade_as_rays_say) {
  std::mt19937 random(21);
  std::uniform_real_distribution<double> turn(0.0, 360.0), place(-6.0, 6.0), size(0.3, 1.2);
  for (int trial = 0; trial < 6; ++trial) {
    Model m = yard(-8.013, -8.021, 8.017, 8.011, 0.25, [&](double x, double y) {
      return 0.15 * std::sin(0.9 * x + trial) * std::cos(0.7 * y);
    });
    const geom::Mesh mesh = fence(3, 16, [](double u) { return -0.3 + 0.2 * std::sin(2.0 * u); });
    Part& sheet = add_part(m, "fence", PartKind::panel, mesh);
    as_mesh(sheet, 0.05, 0.003);
    add_part(m, "wall", PartKind::panel, fence(2, 9, [](double u) { return 0.3 + 0.1 * u; }));
    for (geom::Vec3& v : m.parts.back().mesh.vertices) v = v + Vec3{-5.1, 3.3, 0.0};
    for (int k = 0; k < 4; ++k) {
      const Vec3 at{place(random), place(random), 0.0};
      add_solid(m, "post", box_mesh(at + Vec3{-0.04, -0.04, -0.5}, at + Vec3{0.04, 0.04, 2.2}));
      add_solid(m, "stone",
                ellipsoid({place(random), place(random), 0.1},
                          {size(random), size(random), size(random)}, 12));
    }
    for (const double height : {4.0, 17.0, 52.0}) {
      const SunRay sun = sun_ray(sun_at(turn(random), height).towards);
      EXPECT_LT(differing(m, sun), 1e-4) << trial << " " << height;
    }
  }
}

TEST(FastExp, is_the_librarys) {
  std::mt19937 random(3);
  std::uniform_real_distribution<float> depth(0.0F, 20.0F);
  alignas(32) std::array<float, 64> d{}, v{};
  for (int round = 0; round < 2000; ++round) {
    for (std::size_t k = 0; k < d.size(); ++k) {
      d[k] = k == 0 ? 0.0F : (k == 1 ? 95.0F : depth(random) * (round % 2 == 0 ? 1.0F : 0.01F));
      v[k] = 1.0F;
    }
    fade(d.data(), v.data(), d.size());
    for (std::size_t k = 0; k < d.size(); ++k) {
      const double want = k == 1 ? 0.0 : std::exp(-static_cast<double>(d[k]));
      ASSERT_NEAR(v[k], want, 3e-7 * want) << d[k];
    }
  }
}

}  // namespace
}  // namespace hummock::shade
