// The live solver against a fresh one: things dragged, lifted, turned, added and taken away.
#include <gtest/gtest.h>

#include <cstdlib>
#include <cstring>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/leap/rows/leap_json.h"
#include "engine/leap/search/leap_solver.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

class Yard {
 public:
  explicit Yard(unsigned seed) : random_(seed) {
    const bool climbs_fence = seed % 2 == 0;
    site = test::yard(3.0, 2.6, 1.1, climbs_fence ? SheetKind::mesh : SheetKind::solid);
    test::split_sections(site);
    site.boundary.sections[1].overhang = Overhang{0.25, 0.6};
    site.species.climbs.value = {"bark"};
    if (climbs_fence) site.species.climbs.value.emplace_back("mesh");
    site.species.cling_leap.value = 0.5;
    for (int k = 0; k < 3; ++k) add();
    test::add_tree(site, "tree", {1.5, 1.3}, 1.4, {0.8, 0.8, 0.6}, 0.9).climbable = true;
  }

  // The index of the thing changed, or nothing where the list itself is another.
  std::optional<int> edit() {
    const int what = static_cast<int>(between(0.0, 10.0));
    if (what == 0 && site.objects.size() < 7) {
      add();
      return std::nullopt;
    }
    if (what == 1 && site.objects.size() > 2) {
      site.objects.erase(site.objects.begin() + static_cast<std::ptrdiff_t>(pick()));
      return std::nullopt;
    }
    const std::size_t k = pick();
    Object& o = site.objects[k];
    if (what == 2) o.z = between(0.0, 0.5);
    if (what == 3 || what == 4) o.turn += between(-1.0, 1.0);
    // Up to the fence and, for a crown, over it.
    if (what > 4) o.at = {between(0.1, 2.9), between(0.1, 2.5)};
    return static_cast<int>(k);
  }

  Site site;

 private:
  double between(double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random_);
  }
  std::size_t pick() {
    return std::uniform_int_distribution<std::size_t>(0, site.objects.size() - 1)(random_);
  }
  void add() {
    test::add_box(site, "box " + std::to_string(++made_), {between(0.3, 2.7), between(0.3, 2.3)},
                  {between(0.2, 0.6), between(0.2, 0.6), between(0.15, 0.9)})
        .turn = between(0.0, 1.5);
  }
  std::mt19937 random_;
  int made_ = 0;
};

// 10,000 and more with HUMMOCK_LIVE_EDITS.
int edits(int usual = 150) {
  const char* told = std::getenv("HUMMOCK_LIVE_EDITS");
  return told != nullptr ? std::atoi(told) : usual;
}

TEST(Live, EveryEditEqualsAFreshAnswer) {
  Settings settings;
  settings.remedies = false;  // sought apart: a whole answer each
  settings.resolution = 0.1;
  unsigned seed = 1;
  Yard yard(seed);
  Model model = test::built(yard.site);
  LeapSolver live(model, settings);
  for (int k = 0; k < edits(); ++k) {
    if (k % 50 == 49) yard = Yard(++seed);
    const std::optional<int> changed = k % 50 == 49 ? std::nullopt : yard.edit();
    model = test::built(yard.site);
    if (changed) {
      live.update(model, *changed);
    } else {
      live = LeapSolver(model, settings);
    }
    const LeapSolver fresh(model, settings);
    ASSERT_EQ(to_json(live.result(), model).dump(), to_json(fresh.result(), model).dump())
        << "seed " << seed << " edit " << k;
  }
}

// Ground too wide to be laid whole: a stone thrown about, beside a pool and a mound.
TEST(Live, OnFoldedGroundEveryMoveEqualsAFreshAnswer) {
  std::mt19937 random(20261127);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(17.0, 15.0, 1.3);
  test::add_mound(site, {5.0, 5.0}, 1.5, 1.2);
  test::add_boulder(site, "stone", {8.0, 8.0}, {0.9, 0.7, 0.6});
  test::add_box(site, "box", {12.0, 6.0}, {0.6, 0.6, 0.5});
  Settings settings;
  settings.remedies = false;
  Model model = test::built(site);
  LeapSolver live(model, settings);
  for (int move = 0; move < 6; ++move) {
    const int which = move % 2;
    Object& thing = site.objects[static_cast<std::size_t>(which)];
    // Now and then before the fence.
    thing.at = {move % 3 == 0 ? between(0.4, 1.0) : between(1.0, 16.0), between(1.0, 14.0)};
    thing.turn += between(-1.0, 1.0);
    model = test::built(site);
    live.update(model, which);
    const LeapSolver fresh(model, settings);
    ASSERT_EQ(to_json(live.result(), model).dump(), to_json(fresh.result(), model).dump()) << move;
  }
}

// One thing of a site moved, turned, lifted, lowered again, taken away or set beside itself;
// nothing where the list itself is another.
std::optional<int> edit_site(Site& site, std::mt19937& random) {
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  const int what = static_cast<int>(between(0.0, 10.0));
  const auto which = std::uniform_int_distribution<std::size_t>(0, site.objects.size() - 1)(random);
  Object& thing = site.objects[which];
  if (what == 0) {
    Object again = thing;
    again.name += " again";
    again.at.x += between(-0.6, 0.6);
    site.objects.push_back(again);
    return std::nullopt;
  }
  if (what == 1 && site.objects.size() > 3) {
    site.objects.erase(site.objects.begin() + static_cast<std::ptrdiff_t>(which));
    return std::nullopt;
  }
  if (what == 2) thing.z = std::max(0.0, thing.z + between(-0.3, 0.3));
  if (what == 3) thing.turn += between(-1.0, 1.0);
  if (what > 3) {
    thing.at.x += between(-0.4, 0.4);
    thing.at.y += between(-0.4, 0.4);
  }
  return static_cast<int>(which);
}

bool same_map(const geom::Raster& a, const geom::Raster& b) {
  return a.values.size() == b.values.size() &&
         std::memcmp(a.values.data(), b.values.data(), a.values.size() * sizeof(float)) == 0;
}

void expect_edits_equal_fresh_answers(const std::string& example, unsigned seed) {
  std::mt19937 random(seed);
  Site site =
      read_site(tests::source_dir() + "/examples/" + example + "/" + example + ".site.toml");
  Settings settings;
  settings.remedies = false;
  Model model = build_model(site);
  LeapSolver live(model, settings);
  for (int k = 0; k < edits(5); ++k) {
    const std::optional<int> changed = edit_site(site, random);
    model = build_model(site);
    if (changed) {
      live.update(model, *changed);
    } else {
      live = LeapSolver(model, settings);
    }
    const LeapSolver fresh(model, settings);
    ASSERT_EQ(to_json(live.result(), model).dump(), to_json(fresh.result(), model).dump()) << k;
    ASSERT_TRUE(same_map(live.ground_required_leap(model), fresh.ground_required_leap(model))) << k;
  }
}

TEST(Live, OfTheCraterEveryEditEqualsAFreshAnswer) {
  expect_edits_equal_fresh_answers("crater-paddock", 20261127);
}

TEST(Live, OfTheNorthYardEveryEditEqualsAFreshAnswer) {
  expect_edits_equal_fresh_answers("north-yard", 20261128);
}

}  // namespace
}  // namespace hummock::leap
