// Random small yards: what the program says against what the witness flies.
//
// A way out that the witness found is a proof, so
//     the program's escape demand (or its bound where it finds none) <= the witness's effort,
// and a yard the witness leaves within the brief's margin is not called met. A row that is met only
// with a named "if", and a yard whose openings are short, have said so and are not counted.
//
// Where it is not so, the seed, the family, both numbers and the moves are printed, and the yard is
// written to the folder HUMMOCK_WITNESS_OUT, if that is set. Named beside it is the premise without
// which the witness would not get out more cheaply than the program says.
// HUMMOCK_WITNESS_YARDS: how many yards in all (100 in the ordinary suite).
// known.txt: families with counterexamples not mended yet, one a line; their tests are skipped with
// the count.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <set>

#include "tests/support/paths.h"
#include "tests/support/run_program.h"
#include "tests/witness/program_says.h"

namespace hummock::witness {
namespace {

// m: rounding of the exported float32 corners and of the chords, and a share for the rungs.
double tolerance(double effort) {
  return 0.005 + 0.002 * effort;
}

int yards_in_all() {
  const char* wanted = std::getenv("HUMMOCK_WITNESS_YARDS");
  return wanted != nullptr ? std::max(1, std::atoi(wanted)) : 100;
}

const std::set<std::string>& known() {
  static const std::set<std::string> names = [] {
    std::set<std::string> out;
    std::ifstream in(tests::source_dir() + "/tests/witness/known.txt");
    for (std::string line; std::getline(in, line);)
      if (!line.empty() && line[0] != '#') out.insert(line);
    return out;
  }();
  return names;
}

struct Tally {
  int yards = 0, ways_out = 0, counterexamples = 0, calm = 0;
  double worst_gap = 0.0;  // m, demand less effort
  int compared = 0;        // both found a way out, and the program is not above
  double tightness = 0.0;  // sum of demand ÷ effort over those
  double loosest = 1.0;
};

WayOut witness_of(const Yard& yard, const RandomYard& what, const Animal& animal) {
  Search search;
  search.limit = 1.05 * kAskedMargin * animal.leap_height;
  search.start = what.start;
  return way_out(yard, what.outline, animal, search);
}

struct Premise {
  const char* name;
  void (*take_away)(Animal&);
};
constexpr Premise kPremises[] = {
    {"reach", [](Animal& a) { a.reach = 0.0; }},
    {"crests and free edges are footing", [](Animal& a) { a.crests = false; }},
    {"it crouches", [](Animal& a) { a.crouch = 0.30; }},
    {"it swims", [](Animal& a) { a.swims = false; }},
    {"the easier reading downwards", [](Animal& a) { a.easier_drop = false; }},
    {"crowns bear it", [](Animal& a) { a.crowns = false; }}};

std::string rests_on(const Yard& yard, const RandomYard& what, double demand) {
  std::string out;
  for (const Premise& premise : kPremises) {
    Animal animal = what.animal;
    premise.take_away(animal);
    const WayOut way = witness_of(yard, what, animal);
    if (!way.effort || demand <= *way.effort + tolerance(*way.effort))
      out += fmt::format("{}{}", out.empty() ? "" : "; ", premise.name);
  }
  return out.empty() ? "none of the body's premises alone" : out;
}

void print_moves(const WayOut& way) {
  for (const Move& m : way.moves) {
    if (m.kind == MoveKind::walk || m.kind == MoveKind::climb) continue;
    std::cout << fmt::format(
        "    {} ({:.2f} {:.2f} {:.2f}) -> ({:.2f} {:.2f} {:.2f}) {} e {:.3f}\n", word(m.kind),
        m.from.x, m.from.y, m.from.z, m.to.x, m.to.y, m.to.z, m.on, m.effort);
  }
}

void tell(const RandomYard& what, const Yard& yard, const ProgramSays& says, const WayOut& way) {
  const double share = 1.0 / what.animal.leap_height;
  std::cout << fmt::format(
      "  counterexample: family {} seed {}: the program says {}{:.3f} m (margin {:.2f}, {}), the "
      "witness gets out with {:.3f} m (margin {:.2f}); rests on: {}\n",
      what.family, what.seed, says.found ? "" : "more than ", says.demand, says.demand * share,
      says.leap_met ? "met" : "short", *way.effort, *way.effort * share,
      rests_on(yard, what, says.demand));
  print_moves(way);
  if (const char* folder = std::getenv("HUMMOCK_WITNESS_OUT"))
    write_yard(what, std::filesystem::path(folder) / fmt::format("{}-{}", what.family, what.seed));
}

void judge(const RandomYard& what, Tally& tally) {
  const testing::ScratchFolder folder;
  write_yard(what, folder.path());
  const Yard yard = exported(folder.path());
  const ProgramSays says = checked(folder.path());
  const WayOut way = witness_of(yard, what, what.animal);
  ++tally.yards;
  if (!way.effort) return;
  ++tally.ways_out;
  if (says.demand <= *way.effort + tolerance(*way.effort)) {
    if (!says.found || *way.effort < 0.02) return;
    ++tally.compared;
    tally.tightness += says.demand / *way.effort;
    tally.loosest = std::min(tally.loosest, says.demand / *way.effort);
    return;
  }
  if (says.if_named || !says.openings_met) return;
  ++tally.counterexamples;
  if (says.leap_met) ++tally.calm;
  tally.worst_gap = std::max(tally.worst_gap, says.demand - *way.effort);
  tell(what, yard, says, way);
}

void print_tally(const std::string& family, const Tally& t) {
  std::cout << fmt::format(
      "{}: {} yards, ways out {}, counterexamples {} ({} called met), worst gap {:.3f} m; demand ÷ "
      "effort over {}: mean {:.3f}, least {:.3f}\n",
      family, t.yards, t.ways_out, t.counterexamples, t.calm, t.worst_gap, t.compared,
      t.compared > 0 ? t.tightness / t.compared : 1.0, t.loosest);
}

class RandomYards : public ::testing::TestWithParam<std::string> {};

TEST_P(RandomYards, TheProgramNeverAsksMoreThanAFlightTheWitnessFound) {
  const std::string family = GetParam();
  const int count = (yards_in_all() + static_cast<int>(families().size()) - 1) /
                    static_cast<int>(families().size());
  Tally tally;
  for (int k = 1; k <= count; ++k) {
    SCOPED_TRACE(fmt::format("family {} seed {}", family, k));
    ASSERT_NO_THROW(judge(random_yard(family, static_cast<unsigned>(k)), tally));
  }
  print_tally(family, tally);
  if (tally.counterexamples > 0 && known().count(family) > 0)
    GTEST_SKIP() << tally.counterexamples << " of " << tally.yards
                 << " yards are counterexamples; the family is in known.txt";
  if (tally.counterexamples == 0 && known().count(family) > 0)
    std::cout << "  none: known.txt may let go of " << family << "\n";
  EXPECT_EQ(tally.counterexamples, 0);
}

INSTANTIATE_TEST_SUITE_P(Families, RandomYards, ::testing::ValuesIn(families()),
                         [](const auto& parameter) {
                           std::string name = parameter.param;
                           for (char& c : name)
                             if (c == '-') c = '_';
                           return name;
                         });

TEST(RandomYardsThemselves, TheSameSeedGivesTheSameYardAndAnotherSeedAnother) {
  for (const std::string& family : families()) {
    EXPECT_EQ(random_yard(family, 3).site, random_yard(family, 3).site);
    EXPECT_NE(random_yard(family, 3).site, random_yard(family, 4).site) << family;
  }
}

TEST(RandomYardsThemselves, KnownFamiliesExist) {
  const std::set<std::string> all(families().begin(), families().end());
  for (const std::string& name : known()) EXPECT_EQ(all.count(name), 1U) << name;
}

}  // namespace
}  // namespace hummock::witness
