#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;

// A site with one of everything on uneven ground.
Site full_site() {
  Site site = test::yard(20, 15, 2.4);
  test::add_mound(site, {6, 5}, 3, 0.8);
  test::add_slope(site, {0, 0}, 3 * kDegree, 45 * kDegree);
  Section& fence = site.boundary.sections[0];
  fence.overhang = Overhang{0.6, 40 * kDegree};
  fence.buried = 0.5;
  fence.apron = Apron{0.9, 0.15, Side::inside};
  fence.footing = Footing{0.4, 0.2};
  test::add_gate(site, 0, 3.0, 1.0, 2.0).vestibule = Vestibule{1.5, true, true, false};
  Drain drain;
  drain.name = "ditch";
  drain.edge = 1;
  drain.from = 2;
  drain.aperture = 0.02;
  site.boundary.drains.push_back(drain);
  Roof roof;
  roof.above_fence = 0.3;
  roof.aperture = 0.025;
  site.roof = roof;
  test::add_box(site, "crate", {3, 12}, {1, 1, 0.5});
  test::add_boulder(site, "split boulder", {6, 5}, {1.4, 1.1, 0.9}, 4);
  test::add_tree(site, "elder", {15, 12}, 3, {2, 2, 2}, 1.5);
  site.dens.push_back({"nest box", {2, 2}, {0.6, 0.5, 0.4}, 0.3, 0.15, {}});
  site.plantings.push_back(
      {"tussocks", {{10, 2}, {10, 5}, {14, 5}, {14, 2}}, 0.8, 0.7, {}, {}, {}, {}, {}});
  Water pool;
  pool.name = "pool";
  pool.outline = {{9, 9}, {12, 9}, {12, 12}, {9, 12}};
  pool.depth = 0.4;
  site.waters.push_back(pool);
  House house;
  house.name = "night house";
  house.outline = {{17, 2}, {19, 2}, {19, 5}, {17, 5}};
  house.height = 2.2;
  site.houses.push_back(house);
  Surrounding hall;
  hall.name = "hall";
  hall.outline = {{25, 0}, {35, 0}, {35, 10}, {25, 10}};
  hall.height = 6;
  site.surroundings.push_back(hall);
  Surrounding wood;
  wood.name = "wood";
  wood.kind = "wood";
  wood.outline = {{-20, 0}, {-10, 0}, {-10, 20}, {-20, 20}};
  wood.height = 9;
  wood.base = 2;
  wood.leaf_area_density = 0.5;
  site.surroundings.push_back(wood);
  return site;
}

TEST(Shelters, EverythingIsTaggedWithItsNameAndSource) {
  const Model model = test::built(full_site());
  std::set<std::pair<PartKind, std::string>> seen;
  for (const Part& p : model.parts) {
    EXPECT_FALSE(p.name.empty()) << to_string(p.kind);
    EXPECT_GE(p.source, 0) << p.name;
    EXPECT_FALSE(p.mesh.empty()) << p.name << " " << to_string(p.kind);
    EXPECT_TRUE(seen.emplace(p.kind, p.name).second) << p.name << " " << to_string(p.kind);
  }
  for (const auto& [kind, name] :
       std::vector<std::pair<PartKind, std::string>>{{PartKind::panel, "fence"},
                                                     {PartKind::post, "fence"},
                                                     {PartKind::overhang, "fence"},
                                                     {PartKind::skirt, "fence"},
                                                     {PartKind::apron, "fence"},
                                                     {PartKind::footing, "fence"},
                                                     {PartKind::gate, "gate 1"},
                                                     {PartKind::vestibule, "gate 1 vestibule"},
                                                     {PartKind::gate, "gate 1 second gate"},
                                                     {PartKind::drain_grille, "ditch"},
                                                     {PartKind::roof, "roof"},
                                                     {PartKind::object, "split boulder"},
                                                     {PartKind::object, "elder"},
                                                     {PartKind::crown, "elder"},
                                                     {PartKind::den, "nest box"},
                                                     {PartKind::planting, "tussocks"},
                                                     {PartKind::water, "pool"},
                                                     {PartKind::house, "night house"},
                                                     {PartKind::surrounding, "hall"},
                                                     {PartKind::surrounding, "wood"}}) {
    EXPECT_TRUE(seen.contains({kind, name})) << to_string(kind) << " " << name;
  }
}

TEST(Shelters, EveryPartSaidToBeClosedIs) {
  const Model model = test::built(full_site());
  int closed = 0;
  for (const Part& p : model.parts) {
    if (!p.closed) continue;
    ++closed;
    EXPECT_EQ(geom::open_edges(p.mesh), 0U) << p.name << " " << to_string(p.kind);
    EXPECT_GT(geom::signed_volume(p.mesh), 0.0) << p.name << " " << to_string(p.kind);
  }
  EXPECT_EQ(closed, 11);  // posts, footing, 3 objects, crown, den, planting, house, 2 surroundings
}

TEST(Shelters, WhatLetsABodyThroughIsNotInTheBodyScene) {
  const Model model = test::built(full_site());
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& p = model.parts[k];
    const bool soft = p.kind == PartKind::crown || p.kind == PartKind::planting ||
                      p.kind == PartKind::water || p.name == "wood";
    EXPECT_EQ(p.blocks_body, !soft) << p.name;
  }
}

// Beer–Lambert: exp(−G · density · height) with G = 0.5 lets 1 − cover through.
TEST(Shelters, PlantingsHaveTheDensityThatStopsTheirCover) {
  const Model model = test::built(full_site());
  const Part& tussocks = test::part(model, PartKind::planting, "tussocks");
  EXPECT_NEAR(std::exp(-0.5 * tussocks.leaf_density * 0.8), 0.3, 1e-12);
  EXPECT_NEAR(geom::signed_volume(tussocks.mesh), 12 * 0.8, 1e-6);
  for (const Vec3& v : tussocks.mesh.vertices) {
    const double above = v.z - geom::height_at(model.ground, xy(v));
    EXPECT_TRUE(std::abs(above) < 1e-6 || std::abs(above - 0.8) < 1e-6) << above;
  }
}

TEST(Shelters, HousesStandOverTheirHighestGround) {
  const Model model = test::built(full_site());
  const geom::Box3 box = bounds(test::part(model, PartKind::house, "night house").mesh);
  const double high = geom::height_at(model.ground, {17, 2});  // the ground falls to the north-east
  EXPECT_NEAR(box.hi.z, high + 2.2, 1e-9);
  EXPECT_NEAR(box.lo.z, geom::height_at(model.ground, {19, 5}), 1e-9);
}

TEST(Shelters, SurroundingWoodsAreVolumesOfLeaves) {
  const Model model = test::built(full_site());
  const Part& wood = test::part(model, PartKind::surrounding, "wood");
  EXPECT_EQ(wood.leaf_density, 0.5);
  const geom::Box3 box = bounds(wood.mesh);
  EXPECT_GT(box.hi.z - box.lo.z, 6.9);
}

// Sites drawn far from zero build the same model, up to the rounding of their coordinates.
TEST(LocalOrigin, MovingTheSiteMovesNothingInTheModel) {
  const Site here = full_site();
  const Vec2 by{3512000.0, 5403000.0};
  Site there = here;
  const auto move = [&](Polygon& outline) {
    for (Vec2& p : outline) p = p + by;
  };
  move(there.boundary.outline);
  for (auto& f : there.ground.forms) f.at = f.at + by;
  for (auto& o : there.objects) o.at = o.at + by;
  for (auto& d : there.dens) d.at = d.at + by;
  for (auto& p : there.plantings) move(p.outline);
  for (auto& w : there.waters) move(w.outline);
  for (auto& h : there.houses) move(h.outline);
  for (auto& s : there.surroundings) move(s.outline);
  const Model a = test::built(here);
  const Model b = test::built(there);
  EXPECT_EQ(a.origin, Vec2{});
  EXPECT_EQ(b.origin, by);
  ASSERT_EQ(a.parts.size(), b.parts.size());
  for (std::size_t k = 0; k < a.parts.size(); ++k) {
    EXPECT_EQ(a.parts[k].mesh.vertices, b.parts[k].mesh.vertices) << a.parts[k].name;
  }
  EXPECT_EQ(a.ground.z, b.ground.z);
}

}  // namespace
}  // namespace hummock
