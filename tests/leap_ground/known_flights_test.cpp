// What earlier searches tested, kept: every answer is as without, in the same scene and in one that
// differs within some boxes.
#include "engine/leap/physics/known_flights.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <memory>
#include <random>
#include <set>
#include <tuple>

#include "engine/leap/search/gets_out.h"
#include "tests/leap_ground/search_scene.h"

namespace hummock::leap {
namespace {

// With shelves over one another, whose undersides stop most flights.
Site shelved_yard(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(3.0, 2.5, between(0.8, 1.2), SheetKind::solid);
  site.species = test::test_animal(between(0.6, 0.8), between(0.8, 1.4));
  site.species.body.value[2] = 0.1;
  site.ground.margin = 0.5;
  site.boundary.sections[0].overhang = Overhang{between(0.2, 0.4), between(-0.3, 0.6)};
  for (int k = 0; k < 5; ++k) {
    Object& box =
        test::add_box(site, "shelf " + std::to_string(k), {between(0.8, 2.2), between(0.7, 1.8)},
                      {between(0.3, 0.9), between(0.3, 0.9), 0.05});
    box.turn = between(0.0, 1.5);
    box.z = 0.2 * k;
  }
  return site;
}

SearchResult from(const Scene& scene, std::size_t start, std::int64_t most_flights,
                  const KnownFlights* known) {
  Quest quest;
  quest.starts = {{static_cast<int>(start), 0.0}};
  for (std::size_t k = 0; k < scene.patches.size(); ++k)
    quest.targets.push_back(static_cast<int>(k));
  quest.most_flights = most_flights;
  quest.known = known;
  return search(scene.patches, quest, *scene.model.body_scene, scene.links);
}

// Returns how many flights were tested in all.
std::int64_t expect_known_makes_no_odds(const Scene& scene, const KnownFlights& known) {
  std::int64_t flights = 0;
  for (int again = 0; again < 2; ++again) {
    for (std::size_t start = 0; start < scene.patches.size(); ++start) {
      if (is_exit(*scene.patches[start])) continue;
      for (const std::int64_t most : {300, 4000000}) {
        const SearchResult plain = from(scene, start, most, nullptr);
        expect_equal_answers(plain, from(scene, start, most, &known));
        flights += plain.flights;
      }
    }
  }
  return flights;
}

TEST(KnownFlights, ChangeNoAnswerOfTheirScene) {
  std::int64_t flights = 0;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const Scene scene = scene_of(shelved_yard(seed), seed % 2 == 0);
    const KnownFlights known(std::make_shared<FlightMemo>(), scene.patches, {});
    flights += expect_known_makes_no_odds(scene, known);
  }
  EXPECT_GT(flights, 10000) << flights;
}

// A shelf of the yard is at another place afterwards; what is told to differ is where it was and
// is.
TEST(KnownFlights, ChangeNoAnswerOfASceneThatDiffersWithinBoxes) {
  std::mt19937 random(20261127);
  std::uniform_real_distribution<double> by(-0.1, 0.1);
  for (unsigned seed = 1; seed <= 6; ++seed) {
    Site site = shelved_yard(seed);
    const Scene before = scene_of(site);
    const auto memo = std::make_shared<FlightMemo>();
    const KnownFlights known(memo, before.patches, {});
    expect_known_makes_no_odds(before, known);
    site.objects[2].at.x += by(random);
    site.objects[2].at.y += by(random);
    const Scene after = scene_of(site);
    const KnownFlights carried(memo, after.patches, changed_boxes(before.places, after.model, 2));
    expect_known_makes_no_odds(after, carried);
  }
}

// Shelves moved one after another, more often than changes are told apart: what is known of the
// scene before holds where nothing changed since, and a scene tried between leaves nothing behind.
TEST(KnownFlights, ChangeNoAnswerOfASceneChangedAgainAndAgain) {
  std::mt19937 random(20261128);
  std::uniform_real_distribution<double> by(-0.1, 0.1);
  Site site = shelved_yard(5);
  Scene now = scene_of(site);
  KnownFlights known(std::make_shared<FlightMemo>(), now.patches, {});
  for (int move = 0; move < 40; ++move) {
    const int which = move % 5;
    Object& shelf = site.objects[static_cast<std::size_t>(which)];
    const geom::Vec2 before = shelf.at;
    shelf.at.x += by(random);
    shelf.at.y += by(random);
    const Scene next = scene_of(site, move % 2 == 0);
    const std::vector<geom::Box3> changed = changed_boxes(now.places, next.model, which);
    if (move % 3 == 0) {
      const KnownFlights tried = known.tried(next.patches, changed);
      expect_equal_answers(from(next, 0, 3000, nullptr), from(next, 0, 3000, &tried));
      expect_equal_answers(from(now, 0, 3000, nullptr), from(now, 0, 3000, &known));
      shelf.at = before;
      continue;
    }
    known = known.after(next.patches, changed);
    now = next;
    for (const std::size_t start : {std::size_t{0}, std::size_t{2}})
      expect_equal_answers(from(now, start, 3000, nullptr), from(now, start, 3000, &known));
  }
}

// Of what was told before a change, nothing is told after it that is asked for since then.
TEST(FlightMemo, TellsNothingThatIsPast) {
  FlightMemo memo;
  const FlightMemo::Flight flight{1, 2, 3, 4, 5, true};
  const GroundFlights::Flight ground{9, 2, 4, 5, true};
  memo.keep(flight, 7, 3);
  memo.from_ground().keep(ground, 6, 3);
  EXPECT_EQ(memo.find(flight, 3), 7);
  EXPECT_EQ(memo.from_ground().find(ground, 3), 6);
  EXPECT_FALSE(memo.find(flight, 4).has_value());
  EXPECT_FALSE(memo.from_ground().find(ground, 4).has_value());
  memo.keep(flight, -1, 4);
  memo.from_ground().keep(ground, -1, 4);
  EXPECT_EQ(memo.find(flight, 4), -1);
  EXPECT_EQ(memo.from_ground().find(ground, 4), -1);
  for (const GroundFlights::Flight& f :
       {GroundFlights::Flight{8, 2, 4, 5, true}, GroundFlights::Flight{9, 3, 4, 5, true},
        GroundFlights::Flight{9, 2, 5, 5, true}, GroundFlights::Flight{9, 2, 4, 6, true},
        GroundFlights::Flight{9, 2, 4, 5, false}})
    EXPECT_FALSE(memo.from_ground().find(f, 0).has_value());
}

// Of all that a flight from the ground, or beside it, hangs on.
TEST(FlightMemo, MarksSpotsOfTheGroundApart) {
  SurfacePiece spot;
  spot.at = {0.1, -0.0, 3.0};
  spot.cell.add(geom::Vec3{0.0, -0.1, 2.9});
  spot.cell.add(geom::Vec3{0.2, 0.1, 3.0});
  std::vector<SurfacePiece> others(5, spot);
  others[0].at.x = std::nextafter(0.1, 1.0);
  others[1].at.z = 3.1;
  others[2].cell.lo.y = -0.2;
  others[3].cell.hi.z = 3.1;
  others[4].cling = true;
  for (const SurfacePiece& other : others)
    EXPECT_NE(GroundFlights::mark_of(spot), GroundFlights::mark_of(other));
  SurfacePiece same = spot;
  same.at.y = 0.0;
  EXPECT_EQ(GroundFlights::mark_of(spot), GroundFlights::mark_of(same));
}

// Patches go by their spots, in their order: also where the one before is gone by then.
TEST(FlightMemo, NumbersPatchesByTheirSpots) {
  const auto laid = [](int part, double x, bool hook) {
    auto patch = std::make_shared<Patch>();
    patch->part = part;
    for (const double y : {0.0, 1.0}) {
      SurfacePiece spot;
      spot.at = {x, y, 1.0};
      spot.cell.add(spot.at);
      spot.hook = hook;
      patch->pieces.push_back(spot);
    }
    return patch;
  };
  FlightMemo memo;
  const std::uint32_t first = memo.number(laid(1, 0.5, false));
  EXPECT_NE(first, 0U);
  EXPECT_EQ(memo.number(laid(1, 0.5, false)), first);
  std::set<std::uint32_t> numbers{first};
  numbers.insert(memo.number(laid(2, 0.5, false)));
  numbers.insert(memo.number(laid(1, 0.6, false)));
  numbers.insert(memo.number(laid(1, 0.5, true)));
  auto turned = laid(1, 0.5, false);
  std::swap(turned->pieces[0], turned->pieces[1]);
  numbers.insert(memo.number(turned));
  EXPECT_EQ(memo.number(turned), *numbers.rbegin());
  EXPECT_EQ(numbers.size(), 5U);
}

TEST(FlightMemo, TellsWhatItWasToldAndNothingElse) {
  std::mt19937 random(7);
  const auto below = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
  using Key = std::tuple<std::uint32_t, std::uint32_t, int, int, int, bool>;
  std::map<Key, int> told;
  FlightMemo memo;
  for (int k = 0; k < 50000; ++k) {
    const FlightMemo::Flight f{static_cast<std::uint32_t>(1 + below(3)),
                               static_cast<std::uint32_t>(1 + below(3)),
                               below(40),
                               below(40),
                               below(20),
                               below(2) == 0};
    const Key key{f.from_patch, f.to_patch, f.from, f.to, f.rung, f.steeper};
    const auto known = told.find(key);
    const std::optional<int> found = memo.find(f);
    ASSERT_EQ(found.has_value(), known != told.end());
    if (found) {
      ASSERT_EQ(*found, known->second);
      continue;
    }
    const int chord = below(17) - 1;
    memo.keep(f, chord);
    told[key] = chord;
  }
  // Of patches without a number, and of more spots or rungs than it tells apart, it keeps nothing.
  for (const FlightMemo::Flight& f :
       {FlightMemo::Flight{0, 1, 1, 1, 1, true}, FlightMemo::Flight{1, 0, 1, 1, 1, true},
        FlightMemo::Flight{1, 1, 1 << 26, 1, 1, true},
        FlightMemo::Flight{1, 1, 1, 1 << 22, 1, true},
        FlightMemo::Flight{1, 1, 1, 1, 1 << 10, true}}) {
    memo.keep(f, 3);
    EXPECT_FALSE(memo.find(f).has_value());
  }
}

TEST(FlightMemo, NumbersTheSameSpotsTheSame) {
  const Scene one = scene_of(shelved_yard(3)), again = scene_of(shelved_yard(3));
  FlightMemo memo;
  std::vector<std::uint32_t> numbers;
  for (const PatchPtr& p : one.patches) numbers.push_back(memo.number(p));
  for (std::size_t a = 0; a < numbers.size(); ++a) {
    EXPECT_NE(numbers[a], 0U);
    EXPECT_EQ(memo.number(again.patches[a]), numbers[a]);
    for (std::size_t b = 0; b < a; ++b) EXPECT_NE(numbers[a], numbers[b]);
  }
}

// One yard asked of animals that differ by a figure or two, as questions do: what is known of the
// flights of one is told to those that fly alike, and makes no odds.
TEST(KnownFlights, OfOtherAnimalsThatFlyAlikeChangeNoAnswer) {
  std::int64_t flights = 0;
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const Scene scene = scene_of(shelved_yard(seed));
    AskedFlights asked;
    std::mt19937 random(seed);
    const auto one_of = [&](double a, double b) { return random() % 2 == 0 ? a : b; };
    for (int animal = 0; animal < 10; ++animal) {
      PlaceRules rules = place_rules(scene.model.site.species, Settings{});
      rules.stand_slope = one_of(0.6, 0.9);
      rules.body.crouch = one_of(0.05, 0.15);
      rules.ability.height *= one_of(1.0, 1.25);
      rules.ability.grip = one_of(0.0, 0.12);
      rules.ability.reach = one_of(0.0, 0.2);
      rules.ability.stretch *= one_of(1.0, 1.1);
      const std::vector<PatchPtr> patches = site_places(scene.model, rules).all();
      const LinkRules links = link_rules(rules.ability, Settings{});
      const KnownFlights known = asked.of(links, patches);
      const SearchResult plain = search_site(scene.model, patches, links);
      expect_equal_answers(plain, search_site(scene.model, patches, links, {}, &known));
      flights += plain.flights;
    }
  }
  EXPECT_GT(flights, 10000) << flights;
}

}  // namespace
}  // namespace hummock::leap
