// Blocks of ground left out by looking ahead: every answer of a search is as without, to the last
// bit and to the flight that wins among equal ones, wherever it stops.
#include "engine/leap/search/look_ahead.h"

#include <gtest/gtest.h>

#include <random>

#include "tests/leap_ground/search_scene.h"

namespace hummock::leap {
namespace {

// Level where the seed is a multiple of three, so that whole fences are equal; else on a slope.
// With a bank too steep to walk on odd seeds and a start, so that the ground falls into parts.
Site sloping_yard(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site =
      test::yard(6.0, 5.2, between(0.7, 1.1), seed % 2 == 0 ? SheetKind::solid : SheetKind::mesh);
  test::split_sections(site);
  site.species = test::test_animal(between(0.6, 0.9), between(0.8, 1.6));
  site.species.body.value[2] = 0.1;
  site.ground.margin = 0.5;
  if (seed % 3 != 0) test::add_slope(site, {3.0, 2.6}, between(0.02, 0.3), between(0.0, 6.0));
  if (seed % 2 == 1) {
    test::add_mound(site, {between(1.5, 4.5), between(1.5, 3.7)}, 0.5, between(0.8, 1.2));
    site.leap_start = geom::Vec2{0.4, 0.4};
  }
  site.boundary.sections[1].overhang = Overhang{between(0.2, 0.4), between(-0.3, 0.6)};
  for (int k = 0; k < 3; ++k) {
    Object& box =
        test::add_box(site, "box " + std::to_string(k), {between(0.6, 5.4), between(0.6, 4.6)},
                      {between(0.3, 0.8), between(0.3, 0.8), between(0.1, 0.6)});
    box.turn = between(0.0, 1.5);
    if (k == 1) box.z = 0.3;
  }
  return site;
}

// Its ground folded, however small.
Scene yard_of(unsigned seed) {
  return scene_of(sloping_yard(seed), true);
}

Quest quest_of(const Scene& yard) {
  Quest quest;
  quest.starts = {{0, 0.0}};
  for (std::size_t p = 1; p < yard.patches.size(); ++p)
    quest.targets.push_back(static_cast<int>(p));
  quest.walls = [&yard] {
    return WallsBetween(yard.model, yard.patches, yard.links.step, yard.links.limit);
  };
  return quest;
}

SearchResult answer(const Scene& yard, const Quest& quest) {
  return search(yard.patches, quest, *yard.model.body_scene, yard.links);
}

// Returns how many blocks were left out.
std::int64_t expect_same_without(const Scene& yard, Quest quest) {
  const SearchResult ahead = answer(yard, quest);
  quest.look_ahead = false;
  const SearchResult plain = answer(yard, quest);
  EXPECT_EQ(plain.left_out, 0);
  expect_equal_answers(plain, ahead);
  return ahead.left_out;
}

TEST(LookAhead, ChangesNoAnswer) {
  std::int64_t left_out = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE(seed);
    const Scene yard = yard_of(seed);
    left_out += expect_same_without(yard, quest_of(yard));
    Quest first = quest_of(yard);
    first.stop_at_first_exit = true;
    first.key_limit = 1.1;
    left_out += expect_same_without(yard, first);
    Quest flown = quest_of(yard);
    flown.leave_pockets = true;
    flown.most_tries = 200;
    left_out += expect_same_without(yard, flown);
  }
  EXPECT_GT(left_out, 500) << left_out;
}

TEST(LookAhead, ChangesNoPlaceToStopAt) {
  std::int64_t stopped = 0;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    SCOPED_TRACE(seed);
    const Scene yard = yard_of(seed);
    for (const std::int64_t most : {0, 3, 40, 150, 600, 2500}) {
      Quest quest = quest_of(yard);
      quest.most_flights = most;
      quest.most_tries = 1 + most / 3;
      quest.most_tries_at_exit = 1 + most / 2;
      quest.tries_before_walls = 1 + most / 5;
      expect_same_without(yard, quest);
      if (!answer(yard, quest).complete) ++stopped;
    }
  }
  EXPECT_GT(stopped, 6) << stopped;
}

// A second search of the same knows which blocks came too late in the first.
TEST(LookAhead, RemembersAndChangesNoAnswer) {
  std::int64_t left_out = 0;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    SCOPED_TRACE(seed);
    const Scene yard = yard_of(seed);
    const KnownFlights known(std::make_shared<FlightMemo>(), yard.patches, {});
    Quest quest = quest_of(yard);
    for (int again = 0; again < 3; ++again) {
      quest.known = &known;
      const SearchResult told = answer(yard, quest);
      left_out += told.left_out;
      quest.known = nullptr;
      quest.look_ahead = false;
      expect_equal_answers(answer(yard, quest), told);
      quest.look_ahead = true;
    }
  }
  EXPECT_GT(left_out, 300) << left_out;
}

TEST(LateBlocks, TellWhatTheyWereToldOfThatBlockAlone) {
  LateBlocks told;
  auto block = std::make_shared<const Patch>();
  const auto other = std::make_shared<const Patch>();
  told.keep({block, 1.0, 3, 5}, 0.7);
  EXPECT_EQ(told.needs({block, 1.0, 3, 5}), 0.7);
  EXPECT_EQ(told.needs({block, 0.5, 3, 5}), 0.0);
  EXPECT_EQ(told.needs({block, 1.0, 3, 6}), 0.0);
  EXPECT_EQ(told.needs({block, 1.0, 4, 5}), 0.0);
  EXPECT_EQ(told.needs({other, 1.0, 3, 5}), 0.0);
  told.keep({other, 1.0, 0, 5}, 0.9);
  EXPECT_EQ(told.needs({other, 1.0, 0, 5}), 0.0);
}

}  // namespace
}  // namespace hummock::leap
