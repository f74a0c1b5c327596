// Places kept from other rules against places told afresh: whatever of the rules changes, and
// changes back, only what does not hang on it may be kept.
#include <gtest/gtest.h>

#include <memory>
#include <random>

#include "engine/leap/places/site_places.h"
#include "engine/leap/search/gets_out.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

using geom::Box3;

class Random {
 public:
  explicit Random(unsigned seed) : random_(seed) {}
  double between(double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random_);
  }
  bool coin() { return between(0.0, 1.0) < 0.5; }
  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }

 private:
  std::mt19937 random_;
};

// A fence that is climbed and on whose faces things lie, its overhang at any slope, stones, a tree,
// a hut and by turns no roof, a shelter and one over a corner.
Site some_yard(Random& random, unsigned seed) {
  Site site = test::yard(3.2, 2.6, 1.0, seed % 2 == 0 ? SheetKind::mesh : SheetKind::solid);
  site.boundary.sections[0].overhang = Overhang{0.25, random.between(0.2, 1.2)};
  if (seed % 3 != 0) {
    site.roof = Roof{};
    site.roof->height = random.between(0.9, 1.4);
    const double at = seed % 3 == 1 ? 0.9 : 0.0;
    site.roof->outline = {{at, at}, {at + 1.2, at}, {at + 1.2, at + 0.8}, {at, at + 0.8}};
  }
  test::add_boulder(site, "stone", {random.between(0.6, 2.4), random.between(0.5, 2.0)},
                    {0.6, 0.5, 0.5});
  // Before the fence's face on two sides, as high as it, so that the fence falls apart.
  test::add_box(site, "pile", {random.between(1.2, 2.0), 0.1}, {0.8, 0.2, 1.1});
  test::add_box(site, "stack", {random.between(1.2, 2.0), 2.5}, {0.8, 0.2, 1.1});
  test::add_box(site, "beam", {1.6, random.between(1.0, 1.8)}, {0.3, 2.4, 0.1}).z = 0.6;
  test::add_tree(site, "tree", {2.6, 2.0}, 1.1, {0.7, 0.7, 0.6}, 0.9);
  test::add_hut(site, {{0.1, 1.8}, {0.7, 1.8}, {0.7, 2.4}, {0.1, 2.4}}, 0.7);
  return site;
}

void change_one(PlaceRules& rules, Random& random) {
  const auto flip = [](bool& flag) { flag = !flag; };
  switch (random.below(13)) {
    case 0:
      return flip(rules.climb_inverted);
    case 1:
      return flip(rules.crowns_bear);
    case 2:
      return flip(rules.walls_rough);
    case 3:
      rules.body.climbs_past_upright = random.between(0.1, 0.8);
      return;
    case 4:
      rules.body.reach = random.between(0.0, 0.6);
      return;
    case 5:
      rules.body.crouch = random.between(0.02, 0.3);
      return;
    case 6:
      rules.body.perch = random.coin() ? 0.0 : random.between(0.02, 0.15);
      return;
    case 7:
      rules.least_opening = random.between(0.02, 0.5);
      return;
    case 8:
      rules.stand_slope = random.between(0.3, 1.2);
      return;
    case 9:
      rules.resolution = random.coin() ? 0.1 : 0.08;
      return;
    case 10:
      rules.climbs.clear();
      for (const char* surface : {"mesh", "rock", "wood", "bark"})
        if (random.coin()) rules.climbs.emplace_back(surface);
      return;
    case 11:
      rules.ability.height = random.between(0.1, 1.2);
      return;
    default:
      return;  // nothing: everything may be kept
  }
}

bool same_box(const Box3& a, const Box3& b) {
  return a.lo == b.lo && a.hi == b.hi;
}

// Bit by bit, in the same order.
void expect_same(const std::vector<PatchPtr>& kept, const std::vector<PatchPtr>& fresh) {
  ASSERT_EQ(kept.size(), fresh.size());
  for (std::size_t k = 0; k < kept.size(); ++k) {
    const Patch& a = *kept[k];
    const Patch& b = *fresh[k];
    ASSERT_EQ(a.name, b.name);
    ASSERT_EQ(a.kind, b.kind) << a.name;
    ASSERT_EQ(a.exit, b.exit) << a.name;
    ASSERT_EQ(a.part, b.part) << a.name;
    ASSERT_EQ(a.takeoff, b.takeoff) << a.name;
    ASSERT_EQ(a.pieces.size(), b.pieces.size()) << a.name;
    ASSERT_EQ(a.tree.size(), b.tree.size()) << a.name;
    for (std::size_t i = 0; i < a.pieces.size(); ++i) {
      const SurfacePiece& p = a.pieces[i];
      const SurfacePiece& q = b.pieces[i];
      ASSERT_TRUE(p.at == q.at && same_box(p.cell, q.cell) && p.hook == q.hook &&
                  p.cling == q.cling && p.slid == q.slid)
          << a.name << " piece " << i;
    }
  }
}

TEST(OtherRules, PlacesKeptAreThoseToldAfresh) {
  int kept_parts = 0, told_again = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    Random random(seed);
    const Model model = test::built(some_yard(random, seed));
    PlaceRules rules = place_rules(model.site.species, 0.1, false);
    rules.climbs = {"mesh", "rock"};
    PlaceRules last = rules;
    SitePlaces places = site_places(model, rules);
    if (seed % 2 == 0) places.told_before = std::make_shared<ToldParts>(0);
    for (int change = 0; change < 14; ++change) {
      // By turns changed and changed back, so that what was told before is asked for.
      const PlaceRules was = rules;
      if (change % 3 == 2)
        rules = last;
      else
        change_one(rules, random);
      last = was;
      const auto before = places.of_part;
      sample_by_other_rules(places, model, rules);
      const SitePlaces fresh = site_places(model, rules);
      SCOPED_TRACE("seed " + std::to_string(seed) + " change " + std::to_string(change));
      expect_same(places.all(), fresh.all());
      if (HasFatalFailure()) return;
      for (std::size_t k = 0; k < before.size(); ++k) {
        if (before[k].empty() && places.of_part[k].empty()) continue;
        ++(before[k] == places.of_part[k] ? kept_parts : told_again);
      }
    }
  }
  // The test means something only where both happen often.
  EXPECT_GT(kept_parts, 100);
  EXPECT_GT(told_again, 100);
}

// A pool, a wall across the yard and a start, so that the ground falls into parts.
Site parted_yard(Random& random, unsigned seed) {
  Site site = some_yard(random, seed);
  site.objects.clear();
  test::add_box(site, "wall", {1.6, 1.3}, {0.1, 2.6, random.between(0.3, 0.7)});
  Water pool;
  pool.name = "pool";
  pool.outline = {{2.0, 0.3}, {2.9, 0.3}, {2.9, 1.2}, {2.0, 1.2}};
  pool.level = random.between(0.0, 0.3);
  pool.drain = true;
  site.waters.push_back(pool);
  site.leap_start = geom::Vec2{0.9, 0.9};
  return site;
}

void change_for_ground(PlaceRules& rules, Random& random) {
  switch (random.below(5)) {
    case 0:
      rules.body.swims = !rules.body.swims;
      return;
    case 1:
      rules.ability.water = random.coin() ? 0.5 : 1.0;
      return;
    case 2:
      rules.digs = random.below(4) > 0 ? Digging{} : Digging{1.0, 0.4};
      return;
    case 3:
      rules.drained = !rules.drained;
      return;
    default:
      change_one(rules, random);
  }
}

TEST(OtherRules, GroundSaidToBeTheSameIsToldTheSame) {
  int same = 0, other = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    Random random(seed);
    const Model model = test::built(parted_yard(random, seed));
    PlaceRules rules = place_rules(model.site.species, 0.1, false);
    GroundPlaces ground = ground_places(model, rules);
    for (int change = 0; change < 40; ++change) {
      const PlaceRules before = rules;
      change_for_ground(rules, random);
      const GroundPlaces fresh = ground_places(model, rules);
      const bool kept = same_ground_places(model, before, rules);
      ++(kept ? same : other);
      SCOPED_TRACE("seed " + std::to_string(seed) + " change " + std::to_string(change));
      if (kept) {
        expect_same(ground.patches, fresh.patches);
        EXPECT_EQ(ground.living_area_m2, fresh.living_area_m2);
      }
      if (HasFailure()) return;
      ground = fresh;
    }
  }
  EXPECT_GT(same, 50);
  EXPECT_GT(other, 50);
}

void change_animal(Species& species, Circumstances& yard, Random& random) {
  switch (random.below(7)) {
    case 0:
      species.leap_height.value = random.between(0.2, 1.3);
      return;
    case 1:
      species.stand_slope.value = random.between(0.3, 1.2);
      return;
    case 2:
      species.least_opening.value = random.between(0.02, 0.2);
      return;
    case 3:
      yard.digs = !yard.digs;
      return;
    case 4:
      yard.drained = !yard.drained;
      return;
    case 5:
      yard.frozen = !yard.frozen;
      return;
    default:
      yard.crowns_bear = !yard.crowns_bear;
  }
}

// One that keeps what it can and a copy of it, by turns, against one that was asked nothing before.
TEST(OtherRules, AQuestionAskedAgainOrOfACopyIsAnsweredAsAFreshOne) {
  int yes = 0, no = 0;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    Random random(seed);
    const Model model = test::built(parted_yard(random, seed));
    const Settings settings;
    Species species = model.site.species;
    species.leap_height.value = 0.6;
    species.dig_length.value = 0.6;
    species.dig_depth.value = 0.4;
    Circumstances yard;
    EscapeQuestion first(model, settings);
    first.ask(species, yard);
    EscapeQuestion copy = first;
    for (int change = 0; change < 12; ++change) {
      // Changed and changed back, as premises are.
      const Species species_before = species;
      const Circumstances yard_before = yard;
      change_animal(species, yard, random);
      const GetsOut fresh = EscapeQuestion(model, settings).ask(species, yard);
      SCOPED_TRACE("seed " + std::to_string(seed) + " change " + std::to_string(change));
      EXPECT_EQ((change % 2 == 0 ? first : copy).ask(species, yard), fresh);
      ++(fresh == GetsOut::yes ? yes : no);
      if (random.coin()) {
        species = species_before;
        yard = yard_before;
      }
    }
  }
  EXPECT_GT(yes, 5);
  EXPECT_GT(no, 5);
}

// Reach and leap part what is covered (holds/hang_together.h), and nothing else.
TEST(OtherRules, OnlyWhatFallsApartHangsOnTheLeap) {
  Random random(5);
  const Model model = test::built(some_yard(random, 6));
  PlaceRules rules = place_rules(model.site.species, 0.1, false);
  rules.climbs = {"mesh"};
  const SitePlaces places = site_places(model, rules);
  rules.ability.height *= 1.5;
  const std::vector<PartRules> now = part_rules(model, rules);
  int same = 0, other = 0;
  for (std::size_t k = 0; k < now.size(); ++k) {
    if (places.of_part[k].empty()) continue;
    const bool keeps = tells_the_same(places.told_by[k], now[k]);
    EXPECT_EQ(keeps, places.told_by[k].limb == 0.0) << model.parts[k].name;
    ++(keeps ? same : other);
  }
  EXPECT_GT(same, 0);
  EXPECT_GT(other, 0);
}

}  // namespace
}  // namespace hummock::leap
