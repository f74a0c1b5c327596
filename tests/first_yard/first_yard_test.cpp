// First yards: that each shipped species gets one in which no row is short and no way out is found,
// by the whole check at the settings of the command; the same bytes for the same input; that what a
// size is too small for is told; and that bad input is one line. What of the check's answers are
// right is the other programs' to test, and tests/witness flies at these yards.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/check/findings.h"
#include "engine/first_yard/design.h"
#include "engine/first_yard/needs.h"
#include "engine/first_yard/plan.h"
#include "engine/site/read_site.h"
#include "engine/species/find_species.h"
#include "tests/support/run_program.h"

namespace hummock::first_yard {
namespace {

Species species_named(const std::string& name) {
  return read_species(*find_species(name, ""));
}

class FirstYard : public ::testing::TestWithParam<std::string> {};

TEST_P(FirstYard, has_no_short_row_and_no_way_out) {
  const Species species = species_named(GetParam());
  const Designed yard = design(species, {"yard", GetParam(), 2, {}}, "yard.site.toml");
  EXPECT_EQ(yard.results.brief.size(), species.requirements.size());
  for (const BriefRow& row : yard.results.brief) {
    EXPECT_TRUE(row.standing == Standing::met || row.standing == Standing::met_if)
        << row.what << ": " << in_words(row.standing) << " " << row.value.value_or(-1.0) << ", "
        << row.required << " " << row.why;
    for (const Assumption& a : row.ifs)  // that its leap alone is less than it may be is mended
      EXPECT_NE(a.key, "leap_height") << row.what << ": " << a.words;
  }
  for (const std::string& way : yard.ways_out) ADD_FAILURE() << way;
}

// Whatever size is asked for, the file can be read and built.
TEST_P(FirstYard, is_a_site_at_every_size) {
  const Species species = species_named(GetParam());
  for (const geom::Vec2 size : {geom::Vec2{4.0, 4.0}, {4.0, 300.0}, {300.0, 4.0}, {5.3, 7.1}})
    for (const int animals : {1, 100}) {
      const std::string text = first_yard(species, {"yard", GetParam(), animals, size});
      SCOPED_TRACE(fmt::format("{} x {} m, {} animals", size.x, size.y, animals));
      ASSERT_NO_THROW({
        const Site site = read_site_text(text, "yard.site.toml");
        if (size.x * size.y < 100.0) build_model(site);
      });
    }
}

INSTANTIATE_TEST_SUITE_P(Species, FirstYard, ::testing::ValuesIn(shipped_species()),
                         [](const auto& parameter) {
                           std::string name = parameter.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(FirstYards, the_same_input_gives_the_same_bytes) {
  const Species species = species_named("meerkat");
  const Asked asked{"yard", "meerkat", 5, {}};
  const Designed one = design(species, asked, "yard.site.toml");
  EXPECT_EQ(one.text, design(species, asked, "yard.site.toml").text);
  Asked more = asked;
  more.animals = 50;
  EXPECT_NE(first_yard(species, asked), first_yard(species, more));
}

TEST(FirstYards, more_animals_have_more_room_and_a_size_is_kept) {
  const Species species = species_named("red-panda");
  const Plan two = plan_of(species, {"yard", "red-panda", 2, {}}, {});
  const Plan ten = plan_of(species, {"yard", "red-panda", 10, {}}, {});
  EXPECT_GE(two.w * two.h, 40.0);           // the row: 40 m² for two
  EXPECT_GE(ten.w * ten.h, 40.0 + 8 * 10);  // and 10 m² for each further
  const Plan sized = plan_of(species, {"yard", "red-panda", 2, geom::Vec2{12.0, 9.0}}, {});
  EXPECT_EQ(sized.w, 12.0);
  EXPECT_EQ(sized.h, 9.0);
}

TEST(FirstYards, needs_are_the_strictest_rows_for_that_many_animals) {
  Species species;
  Requirement row;
  row.what = "space.plan_area_m2";
  row.at_least = 10.0;
  row.per = Per::extra_animal;
  row.up_to = 2;
  row.extra = 3.0;
  species.requirements = {row};
  EXPECT_EQ(least_asked(species, row.what, 1), 10.0);
  EXPECT_EQ(least_asked(species, row.what, 5), 19.0);
  row.per = Per::animal;
  row.at_least = 4.0;
  species.requirements.push_back(row);
  EXPECT_EQ(least_asked(species, row.what, 5), 20.0);
  EXPECT_FALSE(least_asked(species, "space.volume_m3", 5));
  EXPECT_FALSE(most_asked(species, row.what, 5));
  row.at_least.reset();
  row.at_most = 7.0;
  row.per = Per::group;
  species.requirements.push_back(row);
  EXPECT_EQ(most_asked(species, row.what, 5), 7.0);
  EXPECT_TRUE(asks(species, "space."));
  EXPECT_FALSE(asks(species, "water."));
}

testing::Said run_new(const testing::ScratchFolder& folder, const std::string& rest) {
  return testing::run_program("new yard " + rest, folder.path());
}

TEST(FirstYards, the_command_writes_what_it_checked_and_says_what_is_left_open) {
  const testing::ScratchFolder folder;
  const auto said = run_new(folder, "--species spur-thighed-tortoise --animals 3");
  EXPECT_EQ(said.status, 0) << said.out << said.err;
  EXPECT_NE(said.out.find("3 × Spur-thighed tortoise"), std::string::npos);
  EXPECT_NE(said.out.find("left open: "), std::string::npos);
  EXPECT_NE(said.out.find("No row is short and no way out was found"), std::string::npos);
  const auto check = testing::run_program("check yard.site.toml", folder.path());
  EXPECT_EQ(check.out.find("[way out]"), std::string::npos) << check.out;
  EXPECT_EQ(check.out.find("[short]"), std::string::npos) << check.out;
}

TEST(FirstYards, a_size_too_small_for_a_row_is_written_and_told) {
  const testing::ScratchFolder folder;
  const auto said = run_new(folder, "--species red-panda --animals 3 --size 6x5");
  EXPECT_EQ(said.status, 1) << said.out;
  EXPECT_NE(said.out.find("short: area in plan 30.0 m²"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("does not do yet"), std::string::npos);
  EXPECT_EQ(said.out.find("No row is short"), std::string::npos);
  EXPECT_NE(testing::text_of(folder / "yard.site.toml").find("[6.0, 5.0]"), std::string::npos);
}

TEST(FirstYards, unchecked_it_says_that_nothing_is_known) {
  const testing::ScratchFolder folder;
  const auto said = run_new(folder, "--species corsac --unchecked");
  EXPECT_EQ(said.status, 1);
  EXPECT_NE(said.out.find("nothing is known of ways out"), std::string::npos) << said.out;
  EXPECT_EQ(folder.files(), 1);
}

TEST(FirstYards, bad_input_is_one_line_and_nothing_is_written) {
  const testing::ScratchFolder folder;
  const std::pair<const char*, const char*> lines[] = {
      {"--species red-pandas", "perhaps red-panda"},
      {"--species \"a'\\\"b\"", "--species"},
      {"--animals 3", "--species"},
      {"--species corsac --animals 2.5", "a whole number"},
      {"--species corsac --animals 0", "--animals"},
      {"--species corsac --animals 100001", "--animals"},
      {"--species corsac --animals 100000", "sides from 4 to 300 m"},
      {"--species corsac --size 12", "WIDTHxDEPTH"},
      {"--species corsac --size 12x", "WIDTHxDEPTH"},
      {"--species corsac --size 12x9m", "WIDTHxDEPTH"},
      {"--species corsac --size nanx9", "--size"},
      {"--species corsac --size -12x9", "sides from 4 to 300 m"},
      {"--species corsac --size 3.9x9", "sides from 4 to 300 m"},
      {"--species corsac --size 12x1e9", "sides from 4 to 300 m"}};
  for (const auto& [rest, says] : lines) {
    const auto said = run_new(folder, rest);
    EXPECT_EQ(said.status, 2) << rest;
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << rest << said.err;
    EXPECT_NE(said.err.find(says), std::string::npos) << rest << ": " << said.err;
    EXPECT_EQ(folder.files(), 0) << rest;
  }
  testing::write_text(folder / "yard.site.toml", "mine");
  const auto said = run_new(folder, "--species corsac");
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("already there"), std::string::npos);
  EXPECT_EQ(testing::text_of(folder / "yard.site.toml"), "mine");
}

}  // namespace
}  // namespace hummock::first_yard
