// Spots for burrows: scores by hand, spacing, what is taken, and the words.
#include "engine/burrows/burrows.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/burrows/burrows_json.h"
#include "geometry/mesh/column_solid.h"
#include "tests/shade/yards.h"

namespace hummock::burrows {
namespace {

using shade::add_part;
using shade::add_solid;
using shade::box_mesh;
using shade::yard;

// A day and rain made by hand, so that every score can be worked out.
struct Setting {
  Model model;
  shade::Day day;
  water::Result water;
};
Setting plain(double size = 10.0) {
  Setting s;
  s.model = yard(0, 0, size, size, 0.5);
  Species& a = s.model.site.species;
  a.dig_depth.value = 0.8;
  a.dig_length.value = 2.0;
  a.stand_slope.value = 40 * geom::kDegree;
  s.day.midday_shade_share = geom::Raster(s.model.ground.grid, 0.25F);
  s.day.sun_hours = geom::Raster(s.model.ground.grid, 9.0F);
  s.day.sunniest = {{3.0, 4.0}, 9.3};
  s.water.pond_depth = geom::Raster(s.model.ground.grid, 0.0F);
  return s;
}

TEST(Burrows, a_level_dry_spot_far_from_the_fence_scores_as_by_hand) {
  Setting s = plain();
  const Result r = analyse(s.model, s.day, s.water);
  ASSERT_FALSE(r.best.empty());
  // Weights 3 2 1 2 2: shade 0.25, unlimited soil 1, level 0.5, dry 1, fence 1.
  EXPECT_NEAR(r.best[0].score, (3 * 0.25 + 2 + 0.5 + 2 + 2) / 10.0, 1e-6);
  EXPECT_EQ(r.best[0].at, (Vec2{5.0, 5.0}));  // all alike: the farthest from the fence
  EXPECT_FALSE(r.best[0].soil_m);
}

TEST(Burrows, each_weight_pulls_the_best_spot_its_own_way) {
  Setting s = plain();
  const geom::Grid& g = s.model.ground.grid;
  s.day.midday_shade_share.at(4, 12) = 1.0F;
  Result r = analyse(s.model, s.day, s.water);
  EXPECT_EQ(r.best[0].at, g.node(4, 12));
  // 1 m from the fence with 2 m of tunnel: half the fence score.
  EXPECT_NEAR(r.best[0].fence_m, 2.0, 1e-12);
  s.day.midday_shade_share.at(4, 12) = 0.25F;
  s.day.midday_shade_share.at(2, 12) = 1.0F;
  r = analyse(s.model, s.day, s.water);
  EXPECT_NEAR(r.best[0].fence_score, 0.5, 1e-12);
  // The same spot in a puddle of half the wet depth, then without weight on ponding.
  s.water.pond_depth.at(2, 12) = static_cast<float>(kWetDepth / 2);
  EXPECT_NEAR(analyse(s.model, s.day, s.water).best[0].score,
              (3 * 1.0 + 2 + 0.5 + 2 * 0.5 + 2 * 0.5) / 10.0, 1e-6);
  s.model.site.siting = SitingWeights{};
  s.model.site.siting->ponding = 0;
  EXPECT_NEAR(analyse(s.model, s.day, s.water).best[0].score, (3 * 1.0 + 2 + 0.5 + 2 * 0.5) / 8.0,
              1e-6);
}

TEST(Burrows, soil_is_deeper_in_a_mound_and_not_in_a_cutting) {
  Setting s = plain();
  s.model.site.ground.soil_depth = 0.4;
  const geom::Grid& g = s.model.ground.grid;
  s.model.ground.at(6, 6) += 0.3;    // raised
  s.model.ground.at(14, 14) -= 0.2;  // cut: rock is as far below the cut as the soil is deep
  s.model.site.burrows.push_back({"up", g.node(6, 6), {}, 0.5, 0.2, {}});
  s.model.site.burrows.push_back({"down", g.node(14, 14), {}, 0.5, 0.2, {}});
  const Result drawn = analyse(s.model, s.day, s.water);
  EXPECT_NEAR(*drawn.drawn[0].as_spot.soil_m, 0.7, 1e-12);
  EXPECT_NEAR(*drawn.drawn[1].as_spot.soil_m, 0.4, 1e-12);
  EXPECT_NEAR(drawn.drawn[1].as_spot.soil_score, 0.5, 1e-12);
}

TEST(Burrows, are_spaced_as_asked_and_as_many_as_asked) {
  Setting s = plain(20.0);
  s.model.site.siting = SitingWeights{};
  s.model.site.siting->count = 7;
  s.model.site.siting->spacing = 3.0;
  const Result r = analyse(s.model, s.day, s.water);
  ASSERT_EQ(r.best.size(), 7U);
  for (std::size_t a = 0; a < 7; ++a) {
    EXPECT_EQ(r.best[a].reasons.size(), 5U);
    for (std::size_t b = 0; b < a; ++b) EXPECT_GE(distance(r.best[a].at, r.best[b].at), 3.0);
    if (a > 0) {
      EXPECT_LE(r.best[a].score, r.best[a - 1].score + 1e-6);
    }
  }
  s.model.site.siting->count = 50;
  s.model.site.siting->spacing = 15.0;
  EXPECT_LE(analyse(s.model, s.day, s.water).best.size(), 9U);  // no room for more
}

TEST(Burrows, are_not_in_water_stones_houses_or_on_banks_too_steep_to_stand_on) {
  Setting s = plain();
  add_solid(s.model, "stone", box_mesh({2.2, 2.2, -1}, {4.2, 4.2, 1}));
  add_solid(s.model, "deck", box_mesh({6.2, 6.2, 1.0}, {8.2, 8.2, 1.2}));  // room below
  Water pool;
  pool.outline = shade::rectangle(6.2, 1.2, 8.2, 3.2);
  s.model.site.waters.push_back(pool);
  House house;
  house.outline = shade::rectangle(1.2, 6.2, 3.2, 8.2);
  s.model.site.houses.push_back(house);
  const Result r = analyse(s.model, s.day, s.water);
  const auto score = [&](double x, double y) {
    return r.score.at(static_cast<int>(x * 2), static_cast<int>(y * 2));
  };
  EXPECT_TRUE(std::isnan(score(3, 3)));
  EXPECT_TRUE(std::isnan(score(7, 2)));
  EXPECT_TRUE(std::isnan(score(2, 7)));
  EXPECT_FALSE(std::isnan(score(7, 7)));
  EXPECT_FALSE(std::isnan(score(5, 5)));
  Setting steep = plain();
  for (int j = 0; j < 21; ++j) {
    for (int i = 0; i < 21; ++i) steep.model.ground.at(i, j) = 0.9 * 0.5 * i;  // 42°
  }
  EXPECT_TRUE(analyse(steep.model, steep.day, steep.water).best.empty());
}

TEST(Burrows, says_what_is_drawn_against_what_could_be) {
  Setting s = plain();
  s.model.origin = {100.0, 200.0};
  s.day.objects.push_back({"sunning rock", {6, 6, 0.4}, 6.1});
  s.day.objects.push_back({"split boulder", {2, 2, 0.4}, 5.0});
  s.model.site.burrows.push_back({"old sett", {1.0, 5.0}, {}, 0.5, 0.2, {}});
  s.model.site.dens.push_back({"nest box", {5.0, 1.0}, {0.5, 0.4, 0.4}, 0.0, 0.15, {}});
  s.water.pond_depth.at(2, 10) = 0.031F;
  const Result r = analyse(s.model, s.day, s.water);
  ASSERT_EQ(r.drawn.size(), 3U);
  EXPECT_EQ(r.drawn[0].kind, "burrow");
  EXPECT_NE(r.drawn[0].words.find("rain stands 4 cm deep there"), std::string::npos)
      << r.drawn[0].words;
  EXPECT_NE(r.drawn[0].words.find("1.0 m from the fence (it digs 2.0 m)"), std::string::npos);
  EXPECT_EQ(r.drawn[1].kind, "den");
  EXPECT_EQ(r.drawn[2].words,
            "the sunning rock has 6.1 h of sun, the sunniest spot has 9.3 h at (103.0, 204.0)");
  const nlohmann::json j = to_json(r, s.model);
  EXPECT_EQ(j["drawn"][2]["words"], r.drawn[2].words);
  EXPECT_NEAR(j["best"][0]["at"][0].get<double>(), 105.0, 1e-9);
  Figures figures;
  add_figures(r, s.model, figures);
  EXPECT_EQ(figures.at("burrows.sunning_hours").value, 6.1);
  EXPECT_EQ(figures.at("burrows.drawn_least_score").where, "old sett");
}

// The real thing: a box's shade by the analysis of the day decides.
TEST(Burrows, with_a_real_day_lie_in_the_shade_of_a_canopy) {
  Setting s = plain();
  add_part(s.model, "canopy", PartKind::roof, box_mesh({3, 5, 2.5}, {6, 8, 2.6}));
  const shade::Day day = shade::analyse(s.model, {});
  const Result r = analyse(s.model, day, s.water);
  ASSERT_FALSE(r.best.empty());
  EXPECT_GT(r.best[0].shade_11_15, 0.85);
  EXPECT_GT(r.best[0].at.y, 5.0);  // the sun stands in the south: the shade lies north of it
}

TEST(Burrows, standing_water_is_a_veto_whatever_the_weights) {
  Setting s = plain();
  s.model.site.burrows.push_back({"wet", {3.0, 5.0}, {}, 0.5, 0.2, {}});
  s.water.pond_depth.at(6, 10) = static_cast<float>(kWetDepth);
  Result r = analyse(s.model, s.day, s.water);
  EXPECT_EQ(r.drawn[0].as_spot.score, 0.0);
  EXPECT_NE(r.drawn[0].as_spot.reasons[0].find("no place for a burrow: rain"), std::string::npos);
  EXPECT_TRUE(std::isnan(r.score.at(6, 10)));
  Setting pool = plain();
  pool.model.site.burrows.push_back({"drowned", {3.0, 5.0}, {}, 0.5, 0.2, {}});
  Water w;
  w.outline = shade::rectangle(2, 4, 4, 6);
  w.level = 1.0;
  pool.model.site.waters.push_back(w);
  Part& sheet = add_part(pool.model, "pool", PartKind::water, geom::flat_sheet(w.outline, 1.0));
  sheet.source = 0;
  sheet.blocks_body = false;
  r = analyse(pool.model, pool.day, pool.water);
  EXPECT_EQ(r.drawn[0].as_spot.score, 0.0);
  EXPECT_NEAR(r.drawn[0].as_spot.water_m, 1.0, 1e-12);
  EXPECT_NE(r.drawn[0].words.find("drawn water stands 100 cm deep over it"), std::string::npos)
      << r.drawn[0].words;
}

// A den's middle lies in the den: what counts is the ground before its opening.
TEST(Burrows, a_den_is_judged_before_its_opening) {
  Setting s = plain();
  s.model.site.dens.push_back({"box", {5.0, 5.0}, {1.0, 0.8, 0.6}, 0.0, 0.3, {}});
  add_part(s.model, "box", PartKind::den, box_mesh({4.5, 4.6, 0.0}, {5.5, 5.4, 0.6}));
  s.day.midday_shade_share.at(10, 10) = geom::Raster::kNone;
  s.day.midday_shade_share.at(11, 10) = 0.9F;
  EXPECT_NEAR(analyse(s.model, s.day, s.water).drawn[0].as_spot.shade_11_15, 0.9, 1e-6);
}

}  // namespace
}  // namespace hummock::burrows
