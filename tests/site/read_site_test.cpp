#include "engine/site/read_site.h"

#include <gtest/gtest.h>

#include "tests/site/good_site.h"

namespace hummock {
namespace {

constexpr double kDegree = geom::kDegree;

TEST(ReadSite, KeepsEveryTableOfAGoodFile) {
  const Site site = read_site(good_site_file());
  EXPECT_EQ(site.name, "Test yard");
  EXPECT_EQ(site.animals, 3);
  EXPECT_EQ(site.species.name, "Test fox");
  EXPECT_EQ(site.boundary.sections.size(), 2U);
  EXPECT_EQ(site.boundary.gates.size(), 1U);
  EXPECT_EQ(site.boundary.drains.size(), 1U);
  EXPECT_EQ(site.objects.size(), 3U);
  EXPECT_EQ(site.plantings.size(), 1U);
  EXPECT_EQ(site.dens.size(), 1U);
  EXPECT_EQ(site.burrows.size(), 1U);
  EXPECT_EQ(site.waters.size(), 1U);
  EXPECT_EQ(site.viewings.size(), 1U);
  EXPECT_EQ(site.houses.size(), 1U);
  EXPECT_EQ(site.surroundings.size(), 1U);
  EXPECT_EQ(site.requirements.size(), 1U);
  EXPECT_EQ(site.ground.forms.size(), 3U);
  EXPECT_TRUE(site.warnings.empty());
}

TEST(ReadSite, TurnsDegreesIntoRadians) {
  const Site site = read_site(good_site_file());
  EXPECT_DOUBLE_EQ(site.place->latitude, 51.5 * kDegree);
  EXPECT_DOUBLE_EQ(site.place->longitude, -0.6 * kDegree);
  EXPECT_DOUBLE_EQ(site.place->grid_north, 10.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.place->horizon.at(1).azimuth, 90.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.place->horizon.at(1).elevation, 10.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.ground.forms.at(2).angle, 5.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.ground.forms.at(2).downhill, 90.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.boundary.sections.at(0).overhang->angle, 40.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.dens.at(0).turn, 180.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.waters.at(0).side_slope, 20.0 * kDegree);
  EXPECT_DOUBLE_EQ(site.species.stand_slope.value, 40.0 * kDegree);
}

TEST(ReadSite, ResolvesPathsFromTheFilesFolder) {
  const Site site = read_site(good_site_file());
  EXPECT_TRUE(std::filesystem::exists(site.objects.at(2).file));
  EXPECT_TRUE(std::filesystem::exists(site.species_file));
}

TEST(ReadSite, NamesThingsThatHaveNoName) {
  const Site site = read_site(good_site_file());
  EXPECT_EQ(site.boundary.gates.at(0).name, "gate 1");
  EXPECT_EQ(site.plantings.at(0).name, "planting 1");
  EXPECT_EQ(site.dens.at(0).name, "den 1");
  EXPECT_EQ(site.houses.at(0).vents.at(0).name, "vent 1");
}

TEST(ReadSite, RemembersWhereEachTableIs) {
  const Site site = read_site(good_site_file());
  const Where& where = site.boundary.sections.at(1).where;
  EXPECT_EQ(where.key, "boundary.section[1]");
  EXPECT_EQ(where.line, line_with("name = \"back wall\"") - 1);
  EXPECT_EQ(site.species.dig_depth.where.key, "dig_depth");
}

TEST(ReadSite, DefaultsHoldWhenOnlyTheNeededIsGiven) {
  const Site site = read_site_text(R"(
format = 1
name = "bare"
species = "good.species.toml"
[ground]
level = 0
[boundary]
outline = [[0,0],[5,0],[5,5],[0,5]]
[[boundary.section]]
name = "all"
edges = [0,1,2,3]
kind = "glass"
height = 2
)",
                                   good_site_file());
  EXPECT_EQ(site.animals, 1);
  EXPECT_FALSE(site.place);
  EXPECT_FALSE(site.roof);
  EXPECT_DOUBLE_EQ(site.ground.cell, 0.1);
  EXPECT_DOUBLE_EQ(site.ground.margin, 3.0);
  EXPECT_FALSE(site.ground.soil_depth);
  EXPECT_EQ(site.boundary.sections.at(0).fit, Fit::raked);
  EXPECT_DOUBLE_EQ(site.boundary.sections.at(0).panel, 2.0);
}

TEST(ReadSite, ReadsTheRequirementsOfSpeciesAndSite) {
  const Site site = read_site(good_site_file());
  const Requirement& space = site.species.requirements.at(0);
  EXPECT_EQ(space.per, Per::extra_animal);
  EXPECT_EQ(space.up_to, 2);
  EXPECT_DOUBLE_EQ(*space.extra, 10.0);
  const Requirement& shade = site.requirements.at(0);
  EXPECT_DOUBLE_EQ(*shade.at_least, 2.0);
  EXPECT_DOUBLE_EQ(*shade.at_most, 50.0);
  EXPECT_EQ(shade.per, Per::animal);
}

TEST(ReadSite, WarnsOfALeapNoAnimalIsKnownFor) {
  const ScratchFolder folder;
  folder.write("far.species.toml", replaced(good_species_text(), "leap_distance = { value = 1.40",
                                            "leap_distance = { value = 30.0"));
  const std::string text =
      replaced(good_site_text(), "good.species.toml", folder.path("far.species.toml"));
  const Site site = read_site_text(text, good_site_file());
  ASSERT_EQ(site.warnings.size(), 1U);
  EXPECT_NE(site.warnings[0].find("far.species.toml:4: leap_distance: 30 m"), std::string::npos)
      << site.warnings[0];
}

TEST(ReadSite, TakesAZoneNameOrAnOffset) {
  for (const char* zone : {"Europe/Berlin", "UTC", "-09:30", "+14:00", "America/Argentina/Salta"}) {
    const std::string text =
        replaced(good_site_text(), "\"+01:00\"", "\"" + std::string(zone) + "\"");
    EXPECT_EQ(read_site_text(text, good_site_file()).place->time_zone, zone);
  }
}

TEST(ReadSite, TakesEitherWindingAndWindowsLineEnds) {
  std::string text = replaced(good_site_text(), "[[0, 0], [12, 0], [12, 9], [0, 9]]",
                              "[[0, 9], [12, 9], [12, 0], [0, 0]]");
  std::string crlf;
  for (const char c : text) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  EXPECT_EQ(read_site_text(crlf, good_site_file()).boundary.outline.size(), 4U);
}

}  // namespace
}  // namespace hummock
