#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;

// What a ray from inside the south fence meets at x along it and z up, going out 0.2 m.
geom::Hit out_through_south(const Model& model, double x, double z) {
  return model.body_scene->first_hit({{x, 0.1, z}, {0, -1, 0}, 0.0, 0.13});
}

TEST(Gates, AreHolesClosedByALeafWithGaps) {
  Site site = test::yard(12, 9, 2.44);
  Gate& gate = test::add_gate(site, 0, 3.0, 1.0, 2.1);
  gate.under_gap = 0.05;
  gate.side_gap = 0.03;
  const Model model = test::built(site);
  ASSERT_EQ(model.gateways.size(), 1U);
  const Gateway& g = model.gateways[0];
  EXPECT_NEAR(g.leaf_foot, 0.05, 1e-12);
  EXPECT_NEAR(g.leaf_top, 2.1, 1e-12);
  EXPECT_FALSE(out_through_south(model, 3.5, 0.02));              // under the leaf
  EXPECT_FALSE(out_through_south(model, 3.015, 1.0));             // beside the leaf
  EXPECT_EQ(out_through_south(model, 3.5, 1.0).id, g.leaf_part);  // the leaf
  const geom::Hit over = out_through_south(model, 3.5, 2.3);
  EXPECT_EQ(over.id, model.panels[0].part);          // the piece over its head
  EXPECT_TRUE(out_through_south(model, 2.5, 0.02));  // the fence beside it
  EXPECT_NEAR(geom::surface_area(model.parts[static_cast<std::size_t>(g.leaf_part)].mesh),
              (1.0 - 0.06) * (2.1 - 0.05), 1e-9);
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::panel, "fence").mesh),
              42 * 2.44 - 1.0 * 2.1, 1e-9);
}

TEST(Gates, TallerThanTheFenceRaiseItsTopThere) {
  Site site = test::yard(12, 9, 2.0);
  test::add_gate(site, 0, 3.0, 1.0, 2.3);
  const Model model = test::built(site);
  int over = 0;
  for (const Panel& p : model.panels) {
    if (p.gate < 0) continue;
    ++over;
    EXPECT_NEAR(p.foot_a, 2.3, 1e-12);
    EXPECT_NEAR(p.top_a, 2.3, 1e-12);
    EXPECT_NEAR(p.top_b, 2.3, 1e-12);
  }
  EXPECT_EQ(over, 1);
}

TEST(Gates, OnASlopeHangLevelOverTheHighestGround) {
  Site site = test::yard(12, 9, 2.44);
  test::add_slope(site, {0, 0}, 10 * kDegree, 90 * kDegree);
  test::add_gate(site, 0, 3.0, 1.0, 2.1).under_gap = 0.02;
  const Model model = test::built(site);
  const double high = -3.0 * std::tan(10 * kDegree);
  EXPECT_NEAR(model.gateways[0].leaf_foot, high + 0.02, 1e-9);
  EXPECT_NEAR(model.gateways[0].ground_b, -4.0 * std::tan(10 * kDegree), 1e-9);
}

TEST(Gates, VestibulesAreBoxesOfTheSameFenceWithASecondGate) {
  Site site = test::yard(12, 9, 2.44);
  Gate& gate = test::add_gate(site, 0, 3.0, 1.0, 2.1);
  gate.vestibule = Vestibule{1.5, true, true, true};
  const Model model = test::built(site);
  const Gateway& g = model.gateways[0];
  ASSERT_GE(g.vestibule_part, 0);
  ASSERT_GE(g.second_leaf_part, 0);
  const Part& box = model.parts[static_cast<std::size_t>(g.vestibule_part)];
  // Two sides of 1.5 × 2.44, the piece over the second gate, the roof 1 × 1.5.
  EXPECT_NEAR(geom::surface_area(box.mesh), 2 * 1.5 * 2.44 + 1.0 * (2.44 - 2.1) + 1.5, 1e-9);
  EXPECT_EQ(box.surface, Surface::mesh);
  const geom::Box3 outer = bounds(model.parts[static_cast<std::size_t>(g.second_leaf_part)].mesh);
  EXPECT_NEAR(outer.lo.y, -1.5, 1e-12);
  EXPECT_NEAR(outer.hi.y, -1.5, 1e-12);
  site.boundary.gates[0].vestibule->second_gate = false;
  EXPECT_EQ(test::built(site).gateways[0].second_leaf_part, -1);
}

TEST(Gates, BeyondTheirEdgeOrOverlappingAreRefused) {
  Site site = test::yard(12, 9, 2.44);
  test::add_gate(site, 1, 8.5, 1.0, 2.1);  // the edge is 9 m
  EXPECT_THROW(test::built(site), InputError);
  site.boundary.gates.clear();
  test::add_gate(site, 1, 3.0, 1.0, 2.1);
  test::add_gate(site, 1, 3.5, 1.0, 2.1);
  EXPECT_THROW(test::built(site), InputError);
}

TEST(Gates, DrainsAreHolesWithOrWithoutAGrille) {
  Site site = test::yard(12, 9, 2.0, SheetKind::solid);
  Drain drain;
  drain.name = "drain";
  drain.edge = 0;
  drain.from = 5.9;  // across a post at 6 m
  drain.width = 0.3;
  drain.height = 0.2;
  drain.sill = 0.1;
  site.boundary.drains.push_back(drain);
  const Model open = test::built(site);
  EXPECT_FALSE(out_through_south(open, 6.15, 0.2));
  EXPECT_TRUE(out_through_south(open, 6.15, 0.05));
  EXPECT_TRUE(out_through_south(open, 6.15, 0.35));
  EXPECT_EQ(test::count_parts(open, PartKind::drain_grille), 0);
  EXPECT_NEAR(geom::surface_area(test::part(open, PartKind::panel, "fence").mesh),
              42 * 2.0 - 0.3 * 0.2, 1e-9);
  site.boundary.drains[0].aperture = 0.01;
  const Model barred = test::built(site);
  EXPECT_NEAR(geom::surface_area(test::part(barred, PartKind::drain_grille, "drain").mesh),
              0.3 * 0.2, 1e-9);
  site.boundary.drains[0].from = 11.8;  // the edge is 12 m
  EXPECT_THROW(test::built(site), InputError);
}

}  // namespace
}  // namespace hummock
