// Answers that are kept are those that are worked out anew, whatever differs between two questions.
#include "engine/usable/kept_answers.h"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <thread>

#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

using Change = std::function<void(Model&)>;

// All that differs between the questions of one run, one by one, and back.
std::vector<Change> changes() {
  return {[](Model&) {},
          [](Model& m) {
            m.site.species.body.value = {0.9, 0.3, 0.5};
          },
          [](Model& m) { m.site.species.stand_slope.value *= 0.5; },
          [](Model& m) { m.site.species.wade_depth.value = 0.0; },
          [](Model& m) { m.site.species.crouch.emplace().value = 0.4; },
          [](Model& m) { m.site.species.leap_height.value *= 0.3; },
          [](Model& m) { m.site.species.leap_distance.value *= 0.3; },
          [](Model& m) {
            m.site.species.climbs.value = {"wood", "rock"};
          },
          [](Model& m) { m.site.species.swims.emplace().value = false; },
          [](Model& m) { m.site.species.leap_from_water.emplace().value = 0.1; },
          [](Model& m) { m.site.species.eye_height.value *= 1.25; },
          [](Model& m) { m.site.species.outdoor_low.emplace().value = -20.0; },
          [](Model& m) {
            for (Part& part : m.parts)
              if (part.kind == PartKind::water) part.mesh = {};
          },
          [](Model&) {}};
}

void expect_same(const usable::Nodes& a, const usable::Nodes& b, std::size_t k) {
  EXPECT_EQ(a.inside, b.inside) << k;
  EXPECT_EQ(a.stand, b.stand) << k;
  EXPECT_EQ(a.live, b.live) << k;
  EXPECT_EQ(a.houses, b.houses) << k;
  EXPECT_EQ(a.beyond, b.beyond) << k;
}

TEST(KeptAnswers, AreThoseThatAreWorkedOutAnew) {
  Model yard = build_model(
      read_site(tests::source_dir() + "/examples/larkfell-terrace/larkfell-terrace.site.toml"));
  usable::keep_answers(yard);
  const geom::Grid& g = yard.ground.grid;
  const geom::Grid coarse{g.x0, g.y0, 2.0 * g.cell, (g.nx + 1) / 2, (g.ny + 1) / 2};
  const std::vector<Change> list = changes();
  for (std::size_t k = 0; k < list.size(); ++k) {
    Model kept = yard, anew = yard;
    yard.kept.hand_on(kept.kept);
    list[k](kept);
    list[k](anew);
    ASSERT_FALSE(anew.kept);
    const usable::UsableGround on(kept), on_anew(anew);
    for (const geom::Grid& grid : {g, coarse})
      expect_same(usable::find_nodes(kept, on, grid), usable::find_nodes(anew, on_anew, grid), k);
    const usable::Nodes nodes = usable::find_nodes(kept, on);
    const auto areas = usable::living_areas(kept, on, nodes);
    const auto areas_anew = usable::living_areas(anew, on_anew, nodes);
    EXPECT_EQ(areas.own_m2, areas_anew.own_m2) << k;
    EXPECT_EQ(areas.beyond_m2, areas_anew.beyond_m2) << k;
  }
}

TEST(KeptAnswers, ACopyStartsWithoutAndAMovedModelKeepsIts) {
  Model yard;
  usable::keep_answers(yard);
  Model copy = yard;
  EXPECT_FALSE(copy.kept);
  copy = yard;
  EXPECT_FALSE(copy.kept);
  yard.kept.hand_on(copy.kept);
  EXPECT_TRUE(copy.kept);
  const Model moved = std::move(copy);
  EXPECT_TRUE(moved.kept);
}

TEST(KeptAnswers, OneWorksAndTheOthersWaitForIt) {
  usable::OnceEach<usable::LivingAreas> kept;
  std::atomic<int> worked{0};
  std::vector<std::thread> askers;
  std::vector<double> told(8);
  for (std::size_t k = 0; k < told.size(); ++k)
    askers.emplace_back([&, k] {
      told[k] = kept.find("the same",
                          [&] {
                            ++worked;
                            return usable::LivingAreas{3.0, 0.0};
                          })
                    ->own_m2;
    });
  for (std::thread& t : askers) t.join();
  EXPECT_EQ(worked, 1);
  for (const double v : told) EXPECT_EQ(v, 3.0);
}

TEST(KeptAnswers, WhatThrowsIsAskedAgain) {
  usable::OnceEach<usable::LivingAreas> kept;
  const auto stop = []() -> usable::LivingAreas { throw std::runtime_error("stopped"); };
  EXPECT_THROW(kept.find("it", stop), std::runtime_error);
  EXPECT_EQ(kept.find("it", [] { return usable::LivingAreas{1.0, 0.0}; })->own_m2, 1.0);
}

}  // namespace
}  // namespace hummock
