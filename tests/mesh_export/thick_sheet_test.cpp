// Sheets given a thickness, and the normals of creased surfaces.
#include "engine/mesh_export/thick_sheet.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/mesh_export/creased.h"
#include "geometry/mesh/boolean_cgal.h"
#include "geometry/mesh/column_solid.h"

namespace hummock {
namespace {

TEST(Slab, IsABoxWithItsVolume) {
  const geom::Mesh s = mesh_export::slab({1, 1}, {4, 5}, 0, 1, 2, 3, 0.1);
  EXPECT_TRUE(geom::is_closed(s));
  EXPECT_NEAR(geom::signed_volume(s), 5.1 * 0.1 * 2, 1e-12);
  EXPECT_EQ(geom::unfit_as_solid(s), "");
}

TEST(ThickSheet, OfAFlatSheetIsItsAreaTimesThickness) {
  const geom::Mesh flat = geom::flat_sheet({{0, 0}, {4, 0}, {4, 3}, {2, 1}, {0, 3}}, 2.0);
  const geom::Mesh thick = mesh_export::thickened_sheet(flat, 0.1);
  EXPECT_TRUE(geom::is_closed(thick));
  EXPECT_NEAR(geom::signed_volume(thick), geom::surface_area(flat) * 0.1, 1e-12);
  EXPECT_EQ(geom::unfit_as_solid(thick), "");
  // Grown by 0.2 on every side: a rectangle stays one.
  const geom::Mesh plate = geom::flat_sheet({{0, 0}, {4, 0}, {4, 3}, {0, 3}}, 2.0);
  EXPECT_NEAR(geom::signed_volume(mesh_export::thickened_sheet(plate, 0.1, 0.2)), 4.4 * 3.4 * 0.1,
              1e-12);
}

// Past failure: three walls that meet in one edge (a vestibule against the fence) are no surface.
TEST(ThickSheet, OfWallsThatMeetIsMadeOfPatches) {
  geom::Mesh walls;
  for (const geom::Vec2 end : {geom::Vec2{2, 0}, geom::Vec2{0, 2}, geom::Vec2{-2, -1}})
    geom::append_quad(walls, {0, 0, 0}, {end.x, end.y, 0}, {end.x, end.y, 1}, {0, 0, 1});
  const auto patches = mesh_export::smooth_patches(walls);
  ASSERT_EQ(patches.size(), 3U);
  std::vector<geom::Mesh> solids;
  solids.reserve(patches.size());
  for (const geom::Mesh& patch : patches)
    solids.push_back(mesh_export::thickened_sheet(patch, 0.1));
  const geom::Solid all = geom::unite(solids);
  ASSERT_TRUE(all.ok) << all.reason;
  EXPECT_LT(all.volume, 0.1 * (4 + std::sqrt(5.0)));
  EXPECT_GT(all.volume, 0.1 * (4 + std::sqrt(5.0)) - 0.02);
}

// A cube keeps its edges: three normals a corner. A sphere-like thing does not double anything.
TEST(CreasedNormals, KeepSharpEdgesAndSmoothBluntOnes) {
  const geom::Mesh cube = geom::prism_on({{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 0, 1);
  const auto sharp = mesh_export::with_normals(cube, 30 * geom::kDegree);
  EXPECT_EQ(sharp.mesh.vertices.size(), 24U);
  for (const geom::Vec3 n : sharp.normals)
    EXPECT_NEAR(std::abs(n.x) + std::abs(n.y) + std::abs(n.z), 1.0, 1e-12);
  const auto smooth = mesh_export::with_normals(cube, geom::kPi);
  EXPECT_EQ(smooth.mesh.vertices.size(), 8U);
}

}  // namespace
}  // namespace hummock
