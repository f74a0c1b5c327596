// The program as its users run it: exit status, one line for bad input, nothing half-written.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/support/paths.h"
#include "tests/support/run_program.h"

namespace hummock::testing {
namespace {

const std::string kExamples = tests::source_dir() + "/examples/";
const std::string kYard = "'" + kExamples + "north-yard/north-yard.site.toml'";

std::size_t lines(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

TEST(CommandLine, TheHelpNamesEveryCommandAndTheCaution) {
  const ScratchFolder folder;
  const Said said = run_program("--help", folder.path());
  EXPECT_EQ(said.status, 0);
  for (const char* word : {"check", "report", "shade", "export", "map", "sun", "new", "compare",
                           "view", "help", "calculation aid"}) {
    EXPECT_NE(said.out.find(word), std::string::npos) << word;
  }
}

TEST(CommandLine, TheNorthYardIsShortAndSaysWhere) {
  const ScratchFolder folder;
  const Said said = run_program("check " + kYard + " --json check.json", folder.path());
  EXPECT_EQ(said.status, 1) << said.err;
  EXPECT_NE(said.out.find("step stone"), std::string::npos) << said.out;
  EXPECT_NE(said.out.find("no warranty"), std::string::npos);
  const auto json = nlohmann::json::parse(text_of(folder / "check.json"));
  for (const char* key : {"space", "relief", "leap", "dig", "openings", "shade", "sight", "water",
                          "earthworks", "quantities", "brief"}) {
    EXPECT_TRUE(json.contains(key)) << key;
  }
  EXPECT_GT(json["brief"].size(), 5U);
}

TEST(CommandLine, OnlyTheAnalysesAskedForAreInTheJson) {
  const ScratchFolder folder;
  const Said said = run_program("check " + kYard + " --only space,relief --json -", folder.path());
  const auto json = nlohmann::json::parse(said.out);
  EXPECT_TRUE(json.contains("space"));
  EXPECT_TRUE(json.contains("relief"));
  EXPECT_FALSE(json.contains("leap"));
  EXPECT_EQ(json["not_run"]["leap"], "not asked for");
  bool any_not_checked = false;
  for (const auto& row : json["brief"]) any_not_checked |= row["met"] == "not checked";
  EXPECT_TRUE(any_not_checked);
}

TEST(CommandLine, TheSameInputGivesTheSameJson) {
  const ScratchFolder folder;
  run_program("check " + kYard + " --json a.json", folder.path());
  run_program("check " + kYard + " --json b.json", folder.path());
  EXPECT_FALSE(text_of(folder / "a.json").empty());
  EXPECT_EQ(text_of(folder / "a.json"), text_of(folder / "b.json"));
}

struct Bad {
  const char* what;
  std::string arguments;
  const char* said;
};

class BadInput : public ::testing::TestWithParam<Bad> {};

TEST_P(BadInput, IsOneLineStatusTwoAndNoFile) {
  const ScratchFolder folder;
  const Said said = run_program(GetParam().arguments, folder.path());
  EXPECT_EQ(said.status, 2) << said.out << said.err;
  EXPECT_EQ(lines(said.err), 1U) << said.err;
  EXPECT_NE(said.err.find(GetParam().said), std::string::npos) << said.err;
  EXPECT_EQ(folder.files(), 0);
}

INSTANTIATE_TEST_SUITE_P(
    CommandLine, BadInput,
    ::testing::Values(
        Bad{"no command", "", "subcommand"}, Bad{"unknown command", "fly", "fly"},
        Bad{"missing site", "check nowhere.site.toml --json a.json", "nowhere.site.toml"},
        Bad{"unknown analysis", "check " + kYard + " --only leaps --json a.json", "leaps"},
        Bad{"impossible date", "check " + kYard + " --date 2026-02-30 --json a.json", "2026-02-30"},
        Bad{"step nought", "check " + kYard + " --step 0 --json a.json", "--step"},
        Bad{"snow not a number", "check " + kYard + " --snow nan --json a.json", "--snow"},
        Bad{"resolution not a number", "check " + kYard + " --resolution nan --json a.json",
            "--resolution"},
        Bad{"latitude not a number", "sun --latitude nan --longitude 0 --time 2026-06-21T12:00Z",
            "--latitude"},
        Bad{"negative snow", "check " + kYard + " --snow -1 --json a.json", "--snow"},
        Bad{"not a number", "check " + kYard + " --snow deep --json a.json", "--snow"},
        Bad{"unknown layer", "map " + kYard + " heat -o x.tif", "heat"},
        Bad{"unknown map ending", "map " + kYard + " slope -o x.bmp", ".tif"},
        Bad{"unknown mesh ending", "export " + kYard + " -o x.dxf", "x.dxf"},
        Bad{"unknown part", "export " + kYard + " -o x.glb --part elephant", "elephant"},
        Bad{"scale nought", "export " + kYard + " -o x.glb --scale 0", "--scale"},
        Bad{"folder that cannot be", "export " + kYard + " -o /proc/none/x.glb", "/proc/none"},
        Bad{"latitude 95", "sun --latitude 95 --longitude 0 --time 2026-06-21T12:00Z",
            "--latitude"},
        Bad{"no time", "sun --latitude 50 --longitude 0", "--time"},
        Bad{"time without zone", "sun --latitude 50 --longitude 0 --time 2026-06-21T12:00",
            "--time"},
        Bad{"year 1500", "sun --latitude 50 --longitude 0 --time 1500-06-21T12:00Z", "1500"},
        Bad{"light where none is drawn", "light " + kYard + " -o x.csv", "no house with a table"},
        Bad{"light of a year", "light " + kYard + " -o x.csv --year 1500", "--year"},
        Bad{"shade without folder", "shade " + kYard + " --date 2026-06-21", "-o"},
        Bad{"new with a slash", "new a/b", "a/b"}, Bad{"unknown topic", "help nothing", "figures"},
        Bad{"unknown figure", "help figures leap.margn", "leap.margin"}),
    [](const auto& bad) {
      std::string name = bad.param.what;
      std::replace_if(
          name.begin(), name.end(), [](char c) { return !std::isalnum(c); }, '_');
      return name;
    });

// "0 all met": a requirement that nothing answers is not met.
TEST(CommandLine, AMisspeltRequirementNeverPasses) {
  const ScratchFolder folder;
  run_program("new yard", folder.path());
  const std::string good = text_of(folder / "yard.site.toml");
  const std::string row = "\n[[require]]\nwhat = \"@\"\nat_least = 1\nsource = \"a test\"\n";
  const auto with = [&](const std::string& what) {
    std::string text = row;
    write_text(folder / "yard.site.toml", good + text.replace(text.find('@'), 1, what));
    return run_program("check yard.site.toml --only space", folder.path());
  };
  EXPECT_EQ(with("space.plan_area_m2").status, 0);
  const Said misspelt = with("space.plan_area");
  EXPECT_EQ(misspelt.status, 2);
  EXPECT_EQ(lines(misspelt.err), 1U) << misspelt.err;
  EXPECT_NE(misspelt.err.find("space.plan_area_m2"), std::string::npos) << misspelt.err;
  EXPECT_EQ(with("space.nix").status, 2);
  const Said unknown = with("spice.plan_area_m2");
  EXPECT_EQ(unknown.status, 2);
  EXPECT_NE(unknown.err.find("spice.plan_area_m2"), std::string::npos) << unknown.err;
}

TEST(CommandLine, EveryFigureARequirementMayAskForIsExplained) {
  const ScratchFolder folder;
  const Said all = run_program("help figures", folder.path());
  EXPECT_EQ(all.status, 0);
  EXPECT_NE(all.out.find("shade.hottest_shade_m2_per_animal"), std::string::npos);
  const Said one = run_program("help figures leap.margin", folder.path());
  EXPECT_EQ(one.status, 0);
  EXPECT_NE(one.out.find("more is better"), std::string::npos) << one.out;
  EXPECT_NE(one.out.find("engine/leap/leap.h"), std::string::npos) << one.out;
}

// Status and headline follow what was found, not only what was asked.
TEST(CommandLine, AWayOutIsSaidFirstAndNeverAQuietNought) {
  const ScratchFolder folder;
  const Said said = run_program("check " + kYard + " --only leap", folder.path());
  EXPECT_EQ(said.status, 1);
  const std::size_t second_line = said.out.find('\n') + 1;
  EXPECT_EQ(said.out.find("An animal can get out"), second_line) << said.out;
  EXPECT_NE(said.out.find("[way out] at ("), std::string::npos) << said.out;
}

TEST(CommandLine, ANewSiteReadsAndChecksAndIsNeverOverwritten) {
  const ScratchFolder folder;
  EXPECT_EQ(run_program("new 'Heron Bank'", folder.path()).status, 0);
  const Said said =
      run_program("check 'Heron Bank.site.toml' --only space,openings", folder.path());
  EXPECT_LE(said.status, 1) << said.err;
  EXPECT_NE(said.out.find("Heron Bank"), std::string::npos);
  const std::string before = text_of(folder / "Heron Bank.site.toml");
  EXPECT_EQ(run_program("new 'Heron Bank'", folder.path()).status, 2);
  EXPECT_EQ(text_of(folder / "Heron Bank.site.toml"), before);
}

// Reda & Andreas, NREL/TP-560-34302 (2008), Table A5.1: zenith 50.11162°, azimuth 194.34024°.
TEST(CommandLine, TheSunOfThePublishedExampleIsWhereItShouldBe) {
  const ScratchFolder folder;
  const Said said = run_program(
      "sun --latitude 39.742476 --longitude -105.1786 --elevation 1830.14 --pressure 820 "
      "--temperature 11 --time 2003-10-17T12:30:30-07:00 --json -",
      folder.path());
  ASSERT_EQ(said.status, 0) << said.err;
  const auto json = nlohmann::json::parse(said.out);
  EXPECT_NEAR(json["zenith_deg"].get<double>(), 50.11162, 0.003);
  EXPECT_NEAR(json["azimuth_deg"].get<double>(), 194.34024, 0.003);
}

TEST(CommandLine, PolarNightIsAnAnswerNotAnError) {
  const ScratchFolder folder;
  const Said said = run_program(
      "sun --latitude 78.216667 --longitude 15.633333 --time 2020-12-21T12:00Z --json -",
      folder.path());
  ASSERT_EQ(said.status, 0) << said.err;
  const auto json = nlohmann::json::parse(said.out);
  EXPECT_EQ(json["day"], "down all day");
  EXPECT_TRUE(json["sunrise"].is_null());
}

TEST(CommandLine, MapsAndMeshesAreWrittenWhole) {
  const ScratchFolder folder;
  EXPECT_EQ(run_program("map " + kYard + " slope -o slope.tif", folder.path()).status, 0);
  const auto cap = run_program("map " + kYard + " cap -o cap.png", folder.path());
  EXPECT_EQ(cap.status, 0);
  EXPECT_NE(cap.out.find("drawn with leap_height"), std::string::npos) << cap.out;
  EXPECT_EQ(run_program("map " + kYard + " height -o height.asc", folder.path()).status, 0);
  EXPECT_EQ(run_program("export " + kYard + " -o yard.glb", folder.path()).status, 0);
  EXPECT_EQ(folder.files(), 4);
  EXPECT_EQ(text_of(folder / "yard.glb").substr(0, 4), "glTF");
  EXPECT_EQ(text_of(folder / "cap.png").substr(1, 3), "PNG");
}

}  // namespace
}  // namespace hummock::testing
