// What must not change the answer, and what may change it one way only.
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/leap/rows/leap_json.h"
#include "engine/leap/search/leap_solver.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

// Boxes, a boulder, a log, a platform and a climbed tree in a yard with an overhang on one side.
Site furnished(unsigned seed, int boxes = 3) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(5.0, 4.0, 1.25, SheetKind::solid);
  test::split_sections(site);
  site.boundary.sections[1].overhang = Overhang{0.3, 0.6};
  site.species.climbs.value = {"bark"};
  site.species.cling_leap.value = 0.5;
  site.species.grip.value = 0.05;
  for (int k = 0; k < boxes; ++k) {
    Object& box =
        test::add_box(site, "box " + std::to_string(k), {between(0.6, 4.4), between(0.6, 3.4)},
                      {between(0.3, 0.8), between(0.3, 0.8), between(0.2, 0.9)});
    box.turn = between(0.0, 3.0);
  }
  test::add_boulder(site, "boulder", {between(1, 4), between(1, 3)}, {0.9, 0.7, 0.6}, seed);
  test::add_log(site, "log", {between(1, 4), between(1, 3)}, 1.2, 0.25);
  test::add_platform(site, "deck", {between(1, 4), between(1, 3)}, {0.8, 0.6, 0.7});
  test::add_tree(site, "tree", {between(1.5, 3.5), between(1.5, 2.5)}, 1.6, {1.0, 1.0, 0.8}, 1.0);
  return site;
}

void turn_and_shift(Site& site, double turn, Vec2 shift) {
  const auto moved = [&](Vec2 p) {
    return Vec2{std::cos(turn) * p.x - std::sin(turn) * p.y + shift.x,
                std::sin(turn) * p.x + std::cos(turn) * p.y + shift.y};
  };
  for (Vec2& p : site.boundary.outline) p = moved(p);
  for (Object& o : site.objects) {
    o.at = moved(o.at);
    o.turn += turn;
  }
}

double least_demand(const Result& r) {
  return r.escape_leap_m.value_or(r.bounded_below_m);
}

std::string text(const Result& r, const Model& m) {
  return to_json(r, m).dump();
}

TEST(Identities, TheAnswerIsTheSameWithOneThreadAndTwo) {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    const Model model = test::built(furnished(seed));
    std::string answers[2];
    for (std::size_t threads = 1; threads <= 2; ++threads) {
      const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
      answers[threads - 1] = text(analyse(model), model);
    }
    EXPECT_EQ(answers[0], answers[1]) << "seed " << seed;
  }
}

TEST(Identities, AShiftByWholeCellsChangesNothing) {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    Site site = furnished(seed);
    const Result here = analyse(test::built(site));
    turn_and_shift(site, 0.0, {2.0, -3.5});
    const Result there = analyse(test::built(site));
    EXPECT_NEAR(least_demand(here), least_demand(there), 1e-6) << "seed " << seed;
    EXPECT_NEAR(here.living_area_m2, there.living_area_m2, 0.02);
    ASSERT_EQ(here.objects.size(), there.objects.size());
    for (std::size_t k = 0; k < here.objects.size(); ++k) {
      EXPECT_EQ(here.objects[k].verdict, there.objects[k].verdict);
      EXPECT_NEAR(here.objects[k].required_leap_m, there.objects[k].required_leap_m, 1e-6);
    }
  }
}

TEST(Identities, ATurnedSiteHasTheSameLeapWithinTheBound) {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    Site site = furnished(seed);
    const Result straight = analyse(test::built(site));
    turn_and_shift(site, 0.5, {0.37, 1.11});
    const Result turned = analyse(test::built(site));
    // Both are below the one true demand by no more than their bounds.
    EXPECT_LE(least_demand(straight), least_demand(turned) + turned.resolution_bound_m + 1e-9)
        << seed;
    EXPECT_LE(least_demand(turned), least_demand(straight) + straight.resolution_bound_m + 1e-9)
        << seed;
  }
}

TEST(Identities, AFinerResolutionClosesInOnTheSameLeap) {
  for (unsigned seed = 1; seed <= 3; ++seed) {
    const Model model = test::built(furnished(seed));
    double widest = 0.0;
    Result last;
    for (const double resolution : {0.1, 0.05, 0.025}) {
      Settings settings;
      settings.resolution = resolution;
      const Result r = analyse(model, settings);
      ASSERT_TRUE(r.escape_leap_m.has_value());
      if (widest > 0.0) {
        EXPECT_LE(r.resolution_bound_m, widest + 0.005);
        EXPECT_LE(least_demand(last), least_demand(r) + r.resolution_bound_m + 1e-9);
        EXPECT_LE(least_demand(r), least_demand(last) + last.resolution_bound_m + 1e-9);
      }
      widest = r.resolution_bound_m;
      last = r;
    }
  }
}

// An added thing gives more places; it may only help the animal unless it blocks. A box on open
// ground away from all flights of the answer cannot block them: the demand must not rise by more
// than the bound where the route stays free.
TEST(Identities, AnAddedThingNeverRaisesTheLeapUnlessItBlocks) {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    Site site = furnished(seed, 2);
    const Result before = analyse(test::built(site));
    std::mt19937 random(seed + 100);
    std::uniform_real_distribution<double> x(0.5, 4.5), y(0.5, 3.5), h(0.1, 1.0);
    test::add_box(site, "new", {x(random), y(random)}, {0.4, 0.4, h(random)});
    const Model after_model = test::built(site);
    const Result after = analyse(after_model);
    bool route_free = true;
    for (const Step& step : before.route) {
      if (step.kind != StepKind::leap) continue;
      for (std::size_t k = 1; k < step.arc.size(); ++k) {
        route_free =
            route_free && after_model.body_scene->segment_free(step.arc[k - 1], step.arc[k], 0.06);
      }
    }
    if (!route_free) continue;
    EXPECT_LE(least_demand(after), least_demand(before) + before.resolution_bound_m + 1e-9)
        << "seed " << seed;
  }
}

TEST(Identities, RaisingTheFenceNeverLowersTheLeap) {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    Site site = furnished(seed);
    double last = 0.0;
    for (const double height : {0.6, 0.9, 1.2, 1.3}) {
      for (Section& s : site.boundary.sections) s.height = height;
      const Result r = analyse(test::built(site));
      EXPECT_GE(least_demand(r), last - 1e-9) << "seed " << seed << " height " << height;
      last = least_demand(r);
    }
  }
}

TEST(Identities, AStrongerSharedFigureOnlyMovesTheMargin) {
  const Model model = test::built(furnished(2));
  const Result r = analyse(model);
  ASSERT_EQ(r.sweep.size(), 6U);
  bool was_out = false;
  for (const auto& row : r.sweep) {
    EXPECT_NEAR(row.margin * row.leap_height_m, least_demand(r), 1e-12);
    EXPECT_EQ(row.escapes, least_demand(r) <= row.leap_height_m);
    EXPECT_EQ(row.escapes, !row.ways_out.empty());
    EXPECT_TRUE(row.escapes || !was_out);
    was_out = row.escapes;
  }
}

TEST(Solver, MovingOneThingEqualsTheFullAnswer) {
  for (unsigned seed = 1; seed <= 3; ++seed) {
    Site site = furnished(seed, 5);
    if (seed == 3) {  // a start and a moat: the ground falls into parts
      Water moat;
      moat.name = "moat";
      moat.outline = {{3.2, 0}, {3.7, 0}, {3.7, 4}, {3.2, 4}};
      moat.level = 0.2;
      site.waters.push_back(moat);
      site.leap_start = Vec2{0.3, 0.3};
    }
    Model model = test::built(site);
    LeapSolver solver(model);
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> step(-0.8, 0.8);
    for (int k = 0; k < 12; ++k) {
      const std::size_t which = static_cast<std::size_t>(k) % site.objects.size();
      Object& o = site.objects[which];
      o.at.x = std::clamp(o.at.x + step(random), 0.5, 4.5);
      o.at.y = std::clamp(o.at.y + step(random), 0.5, 3.5);
      o.turn += step(random);
      model = test::built(site);
      solver.update(model, static_cast<int>(which));
      const LeapSolver fresh(model);
      ASSERT_EQ(text(solver.result(), model), text(fresh.result(), model))
          << "seed " << seed << " move " << k << " of " << o.name;
    }
  }
}

TEST(Solver, TheLeapMapHoldsZeroWhereItLivesAndItsLeapOnAPlace) {
  Site site = test::yard(5, 4, 1.0, SheetKind::solid);
  test::add_box(site, "box", {2.5, 2.0}, {0.8, 0.8, 0.5});
  const Model model = test::built(site);
  const LeapSolver solver(model);
  const geom::Raster ground = solver.ground_required_leap(model);
  const auto at = [&](double x, double y) {
    return ground.at(static_cast<int>(std::lround((x - ground.grid.x0) / ground.grid.cell)),
                     static_cast<int>(std::lround((y - ground.grid.y0) / ground.grid.cell)));
  };
  EXPECT_EQ(at(1.0, 1.0), 0.0F);
  EXPECT_TRUE(std::isnan(at(-1.0, 1.0)));  // outside
  EXPECT_TRUE(std::isnan(at(2.5, 2.0)));   // under the box
  const auto faces = solver.surface_required_leap(model);
  const Part& box = test::part(model, PartKind::object, "box");
  const auto& values = faces.at("box");
  ASSERT_EQ(values.size(), box.mesh.vertices.size());
  for (std::size_t v = 0; v < values.size(); ++v) {
    const double z = box.mesh.vertices[v].z;
    EXPECT_NEAR(values[v], z > 0.4 ? 0.5 : 0.0, 0.02);
  }
  const Part& fence = test::part(model, PartKind::panel, "fence");
  const auto& on_fence = faces.at("fence");
  for (std::size_t v = 0; v < on_fence.size(); ++v) {
    EXPECT_NEAR(on_fence[v], std::max(0.0, fence.mesh.vertices[v].z), 0.02);
  }
}

}  // namespace
}  // namespace hummock::leap
