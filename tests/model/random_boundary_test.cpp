#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/yard.h"

namespace hummock {
namespace {

struct Chance {
  std::mt19937 random;
  double between(double lo, double hi) { return lo + (hi - lo) * random() / 4294967296.0; }
  bool one_in(int n) { return random() % static_cast<unsigned>(n) == 0; }
};

// A star of 5–11 corners about the origin, often with reflex and sharp corners, either winding.
Polygon star(Chance& chance) {
  const int n = 5 + static_cast<int>(chance.random() % 7);
  Polygon shape;
  for (int k = 0; k < n; ++k) {
    const double a = 2 * geom::kPi * (k + chance.between(-0.3, 0.3)) / n;
    shape.push_back(Vec2{std::cos(a), std::sin(a)} * chance.between(3, 9));
  }
  if (chance.one_in(2)) std::reverse(shape.begin(), shape.end());
  return shape;
}

Site random_site(Chance& chance) {
  Site site = test::yard(10, 10, 2.0);
  site.boundary.outline = star(chance);
  const int n = static_cast<int>(site.boundary.outline.size());
  site.ground.cell = 0.25;
  test::add_mound(site, {chance.between(-6, 6), chance.between(-6, 6)}, chance.between(2, 6),
                  chance.between(0.1, 1.5));
  test::add_slope(site, {0, 0}, chance.between(0, 0.3), chance.between(0, 6));
  test::split_sections(site);
  for (Section& s : site.boundary.sections) {
    s.height = chance.between(1, 3);
    s.panel = chance.between(0.4, 3);
    s.fit = chance.one_in(2) ? Fit::raked : Fit::stepped;
    if (!chance.one_in(3))
      s.overhang = Overhang{chance.between(0.2, 1.2), chance.between(-0.8, 1.4)};
    if (chance.one_in(2)) s.footing = Footing{chance.between(0.1, 1), chance.between(0.1, 0.4)};
    if (chance.one_in(2)) {
      s.apron = Apron{chance.between(0.2, 1.5), chance.between(0, 0.3),
                      chance.one_in(2) ? Side::inside : Side::outside};
    }
    s.buried = chance.between(0, 1);
  }
  Gate& gate = test::add_gate(site, static_cast<int>(chance.random() % static_cast<unsigned>(n)),
                              chance.between(0, 0.4), 0.8, chance.between(1, 3));
  gate.under_gap = chance.between(0, 0.1);
  gate.side_gap = chance.between(0, 0.05);
  if (chance.one_in(2)) gate.vestibule = Vestibule{1.2, true, false, chance.one_in(2)};
  return site;
}

void expect_sound(const Model& model, int round) {
  for (const Part& p : model.parts) {
    for (const Vec3& v : p.mesh.vertices) {
      ASSERT_TRUE(std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z))
          << p.name << " " << to_string(p.kind) << " round " << round;
    }
    if (!p.closed) continue;
    ASSERT_EQ(geom::open_edges(p.mesh), 0U)
        << p.name << " " << to_string(p.kind) << " round " << round;
    ASSERT_GT(geom::signed_volume(p.mesh), 0.0) << p.name << " " << to_string(p.kind);
  }
}

// No overhang comes through the fence line, and none reaches farther in than its own reach, six
// times that round a reflex corner.
void expect_inside(const Model& model, int round) {
  for (const OverhangPanel& o : model.overhangs) {
    const Overhang& own =
        *model.site.boundary.sections[static_cast<std::size_t>(o.section)].overhang;
    for (const Vec3& tip : {o.tip_a, o.tip_b}) {
      ASSERT_LE(geom::distance_to_edges(model.outline, xy(tip)),
                6.1 * own.length * std::cos(own.angle) + 1e-9)
          << "round " << round;
    }
  }
}

void expect_closed_ring(const Model& model) {
  const std::size_t n = model.panels.size();
  double along = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    ASSERT_LT(geom::distance(model.panels[k].b, model.panels[(k + 1) % n].a), 1e-9);
    along += geom::distance(model.panels[k].a, model.panels[k].b);
  }
  EXPECT_NEAR(along, geom::perimeter(model.outline), 1e-9);
}

TEST(RandomBoundary, IsSoundWhateverItsShape) {
  Chance chance{std::mt19937(977)};  // the seed of this test's cases
  for (int round = 0; round < 60; ++round) {
    const Site site = random_site(chance);
    if (geom::first_self_crossing(site.boundary.outline)) continue;
    Model model;
    try {
      model = test::built(site);
    } catch (const InputError& e) {
      ASSERT_NE(std::string(e.what()).find("gate"), std::string::npos) << e.what();
      continue;  // a gate on too short an edge
    }
    expect_sound(model, round);
    expect_inside(model, round);
    expect_closed_ring(model);
  }
}

TEST(BuildModel, StopsWhenAsked) {
  const std::atomic<bool> stop{true};
  Progress progress;
  progress.cancel = &stop;
  EXPECT_THROW(build_model(test::yard(10, 10, 2), {}, progress), Cancelled);
}

TEST(BuildModel, TellsItsStages) {
  std::vector<std::string> stages;
  Progress progress;
  progress.report = [&](std::string_view stage, double) { stages.emplace_back(stage); };
  build_model(test::yard(10, 10, 2), {}, progress);
  EXPECT_GE(stages.size(), 5U);
}

TEST(BuildModel, GivesTheSameBytesTwice) {
  Chance chance{std::mt19937(12)};
  const Site site = random_site(chance);
  const Model a = test::built(site);
  const Model b = test::built(site);
  ASSERT_EQ(a.parts.size(), b.parts.size());
  for (std::size_t k = 0; k < a.parts.size(); ++k) {
    EXPECT_EQ(a.parts[k].mesh.vertices, b.parts[k].mesh.vertices);
    EXPECT_EQ(a.parts[k].mesh.triangles, b.parts[k].mesh.triangles);
  }
}

}  // namespace
}  // namespace hummock
