// A fence's face by height: bands of another make, the cap, and what is made of them.
#include "engine/model/build/bands.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/model/fence_foot.h"
#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

Band band(double from, double to, SheetKind kind, double aperture = 0.0) {
  Band b;
  b.from = from;
  b.to = to;
  b.kind = kind;
  b.aperture = aperture;
  return b;
}

// By band; -1 = the section's own face.
const Part* face(const Model& model, int of_band) {
  for (const Part& p : model.parts) {
    if (p.kind == PartKind::panel && p.band == of_band) return &p;
  }
  return nullptr;
}

double area(const Model& model, int of_band) {
  const Part* part = face(model, of_band);
  return part == nullptr ? 0.0 : geom::surface_area(part->mesh);
}

// 42 m of fence on the level: the areas are lengths times heights.
TEST(Bands, EachMakeIsAPartOfItsOwn) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].bands = {band(0.0, 0.6, SheetKind::solid),
                                     band(1.0, 1.2, SheetKind::mesh, 0.05)};
  site.boundary.sections[0].cap = 0.3;
  const Model model = test::built(site);
  EXPECT_NEAR(area(model, 0), 42 * 0.6, 1e-9);
  EXPECT_NEAR(area(model, 1), 42 * 0.2, 1e-9);
  EXPECT_NEAR(area(model, 2), 42 * 0.3, 1e-9);
  EXPECT_NEAR(area(model, -1), 42 * (0.4 + 0.5), 1e-9);
  EXPECT_EQ(face(model, 0)->surface, Surface::smooth);
  EXPECT_EQ(face(model, 0)->openness, 0.0);
  EXPECT_EQ(face(model, 1)->surface, Surface::mesh);
  EXPECT_EQ(face(model, 2)->surface, Surface::smooth);
  EXPECT_EQ(face(model, -1)->surface, Surface::mesh);
  const geom::Box3 cap = geom::bounds(face(model, 2)->mesh);
  EXPECT_NEAR(cap.lo.z, 1.7, 1e-12);
  EXPECT_NEAR(cap.hi.z, 2.0, 1e-12);
}

TEST(Bands, WithoutAnyTheFaceIsOnePartAsBefore) {
  const Model model = test::built(test::yard(12, 9, 2.0));
  EXPECT_EQ(test::count_parts(model, PartKind::panel), 1);
  EXPECT_NEAR(area(model, -1), 42 * 2.0, 1e-9);
}

TEST(Bands, ASectionWhollyOfBandsHasNoFaceOfItsOwn) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].bands = {band(0.0, 1.2, SheetKind::glass),
                                     band(1.2, 2.0, SheetKind::solid)};
  const Model model = test::built(site);
  EXPECT_EQ(face(model, -1), nullptr);
  EXPECT_NEAR(area(model, 0) + area(model, 1), 42 * 2.0, 1e-9);
  for (const Panel& p : model.panels) {
    EXPECT_EQ(model.parts[static_cast<std::size_t>(p.part)].kind, PartKind::panel);
  }
}

// Identity: on any ground, raked or stepped, with a gate and a drain, the makes together are the
// whole face and nothing twice.
TEST(Bands, TogetherTheyAreTheWholeFace) {
  for (const Fit fit : {Fit::raked, Fit::stepped}) {
    Site site = test::yard(12, 9, 2.0);
    site.boundary.sections[0].fit = fit;
    test::add_mound(site, {3, 1}, 2.5, 0.7);
    test::add_mound(site, {10, 8}, 2.0, 0.4);
    test::add_gate(site, 1, 3.0, 1.0, 1.5);
    Drain drain;
    drain.name = "drain";
    drain.edge = 0;
    drain.from = 6.0;
    drain.width = 0.8;
    drain.height = 0.5;
    drain.sill = 0.3;
    site.boundary.drains.push_back(drain);
    const double whole = area(test::built(site), -1);
    site.boundary.sections[0].bands = {band(0.2, 0.6, SheetKind::mesh, 0.01),
                                       band(0.9, 1.3, SheetKind::mesh, 0.02)};
    site.boundary.sections[0].cap = 0.25;
    const Model model = test::built(site);
    double sum = 0.0;
    for (int b = -1; b < 3; ++b) sum += area(model, b);
    EXPECT_NEAR(sum, whole, 1e-9);
  }
}

TEST(Bands, TheWidestMeshAnywhereIsTheOneThatCounts) {
  Site site = test::yard(8, 6, 2.0);  // 25 mm
  site.boundary.sections[0].bands = {band(0.5, 1.0, SheetKind::mesh, 0.04)};
  EXPECT_EQ(openings::analyse(test::built(site)).largest_m, 0.04);
  site.boundary.sections[0].bands = {band(0.0, 1.0, SheetKind::mesh, 0.01)};
  EXPECT_EQ(openings::analyse(test::built(site)).largest_m, 0.025);
  site.boundary.sections[0].bands = {band(0.0, 2.0, SheetKind::mesh, 0.01)};
  EXPECT_EQ(openings::analyse(test::built(site)).largest_m, 0.01);
}

// Sheet metal at the foot of a mesh fence does not follow a dip: what it leaves there is open.
TEST(Bands, TheMakeAtTheFootDecidesWhetherItFollowsTheGround) {
  Site site = test::yard(12, 9, 2.0);
  GroundForm dip;
  dip.kind = FormKind::hollow;
  dip.at = {5, 0};
  dip.radius = 0.9;
  dip.height = 0.3;
  site.ground.forms.push_back(dip);
  EXPECT_LT(openings::analyse(test::built(site)).largest_m, 0.03);
  site.boundary.sections[0].bands = {band(0.0, 0.5, SheetKind::solid)};
  EXPECT_TRUE(!follows_ground(site.boundary.sections[0]));
  EXPECT_GT(openings::analyse(test::built(site)).largest_m, 0.25);
}

TEST(Bands, WaterIsHeldUpToTheLowestMesh) {
  Section s;
  s.height = 2.0;
  s.kind = SheetKind::mesh;
  EXPECT_EQ(solid_from_foot(s), 0.0);
  s.bands = {band(0.0, 0.6, SheetKind::solid), band(0.6, 0.8, SheetKind::glass)};
  EXPECT_EQ(solid_from_foot(s), 0.8);
  s.kind = SheetKind::solid;
  EXPECT_EQ(solid_from_foot(s), 2.0);
  s.bands.push_back(band(1.0, 1.5, SheetKind::mesh, 0.02));
  EXPECT_EQ(solid_from_foot(s), 1.0);
}

}  // namespace
}  // namespace hummock
