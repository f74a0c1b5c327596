// The first yard that `hummock new` draws for each shipped species, against the witness: it must
// find no flight out for less than the margin the species' brief asks at the used figures, nor for
// a leap at the careful end.
//
// The species' figures are read by the program (engine/species), as are the doubts of them; flights
// and footholds are the witness's own. It does not go hand over hand beneath sheets: yards of those
// that do are roofed, and what a roof leaves open is its to find. Its footholds are samples, wider
// apart in large yards: that it finds none proves nothing, a way that it finds does.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <regex>

#include "engine/site/read_site.h"
#include "engine/species/body.h"
#include "engine/species/doubt.h"
#include "engine/species/find_species.h"
#include "engine/species/young.h"
#include "tests/support/run_program.h"
#include "tests/witness/program_says.h"

namespace hummock::witness {
namespace {

Animal animal_of_file(const Species& species) {
  const Body body = body_of(species);
  Animal animal;
  animal.leap_height = species.leap_height.value;
  animal.leap_distance = species.leap_distance.value;
  animal.cling = species.cling_leap.value;
  animal.stand_slope = species.stand_slope.value;
  animal.least_opening = species.least_opening.value;
  animal.wade_depth = species.wade_depth.value;
  animal.climbs = species.climbs.value;
  animal.reach = std::max(body.reach, species.grip.value);
  animal.crouch = body.crouch;
  animal.past_upright = body.climbs_past_upright;
  animal.swims = body.swims;
  animal.crowns = false;  // an if that the program names
  return animal;
}

// m, of leap: the brief's margin, or what it may do at the careful end where that is more.
double must_hold(const Species& species) {
  const double leap = species.leap_height.value;
  double most = careful_end(species.leap_height, kStrongerLeap).value_or(leap);
  for (const Requirement& row : species.requirements)
    if (row.what == "leap.margin") most = std::max(most, row.at_least.value_or(1.0) * leap);
  return most;
}

WayOut flown(const std::filesystem::path& folder, const Species& species) {
  const Site site = read_site(folder / kSiteFile);
  Search search;
  search.limit = must_hold(species);
  const double area = std::abs(geom::signed_area(site.boundary.outline));
  const bool many = area > 100.0 || species.leap_distance.value > 3.0;  // flights
  if (many) search.spacing = {0.6, 0.5, 0.4};
  return way_out(exported(folder), site.boundary.outline, animal_of_file(species), search);
}

class FirstYards : public ::testing::TestWithParam<std::string> {};

TEST_P(FirstYards, HoldTheWitness) {
  const testing::ScratchFolder folder;
  const auto said =
      testing::run_program("new case --species " + GetParam() + " --animals 2", folder.path());
  ASSERT_EQ(said.status, 0) << said.out << said.err;
  const Species species = young_and_grown(read_species(*find_species(GetParam(), "")));
  const WayOut way = flown(folder.path(), species);
  EXPECT_GT(way.footholds, 100);
  EXPECT_GT(way.flights, 0);
  EXPECT_FALSE(way.effort) << *way.effort << " m over " << way.moves.back().on;
}

// It is not blind: the same animal leaves the same yard where the walls, and the gate, are low.
TEST(FirstYardsThemselves, LowWallsAreFlown) {
  const testing::ScratchFolder folder;
  ASSERT_EQ(testing::run_program("new case --species corsac --animals 2", folder.path()).status, 0);
  std::string text = testing::text_of(folder / kSiteFile);
  text = std::regex_replace(text, std::regex("\nheight = 2\\.[2-9]"), "\nheight = 0.8");
  text = std::regex_replace(text, std::regex("\nheight = 2\\.[01]"), "\nheight = 0.7");
  testing::write_text(folder / kSiteFile, text);
  const Species species = young_and_grown(read_species(*find_species("corsac", "")));
  EXPECT_TRUE(flown(folder.path(), species).effort);
}

std::string as_name(const ::testing::TestParamInfo<std::string>& parameter) {
  std::string name = parameter.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Species, FirstYards, ::testing::ValuesIn(shipped_species()), as_name);

}  // namespace
}  // namespace hummock::witness
