// Every shipped species and example reads without an error or a warning.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "engine/base/assets.h"
#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "engine/species/find_species.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> files_ending(const fs::path& folder, const std::string& ending) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    if (name.size() > ending.size() && name.substr(name.size() - ending.size()) == ending) {
      found.push_back(entry.path());
    }
  }
  return found;
}

std::string whole_file(const fs::path& file) {
  std::ifstream in(file);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

const fs::path kTop = tests::source_dir();

TEST(Examples, ThreeOrMoreSitesReadWithoutAWarningAndTellAStory) {
  const auto sites = files_ending(kTop / "examples", ".site.toml");
  EXPECT_GE(sites.size(), 3U);
  for (const fs::path& file : sites) {
    SCOPED_TRACE(file);
    const Site site = read_site(file);
    EXPECT_EQ(site.warnings, std::vector<std::string>{});
    EXPECT_GE(site.story.size(), 100U);
    EXPECT_TRUE(site.place) << "shade is part of every example";
  }
}

TEST(Examples, EverySiteBuildsAModelInWhichEveryNamedThingStands) {
  for (const fs::path& file : files_ending(kTop / "examples", ".site.toml")) {
    SCOPED_TRACE(file);
    const Site site = read_site(file);
    const Model model = build_model(site);
    std::set<std::string> names;
    for (const Part& part : model.parts) names.insert(part.name);
    for (const Object& object : site.objects) EXPECT_TRUE(names.count(object.name)) << object.name;
    for (const House& house : site.houses) EXPECT_TRUE(names.count(house.name)) << house.name;
    EXPECT_GE(model.panels.size(), 10U);
    // Nothing doubtful, but that a survey may end before what stands outside.
    for (const std::string& note : model.notes)
      EXPECT_EQ(note.rfind("surroundings: ", 0), 0U) << note;
  }
}

TEST(Examples, TheStartingFileOfANewSiteReads) {
  const std::string text = whole_file(assets_folder() / "new.site.toml");
  const Site site = read_site_text(text, kTop / "examples" / "new.site.toml");
  EXPECT_EQ(site.warnings, std::vector<std::string>{});
  EXPECT_NO_THROW(build_model(site));
}

TEST(ShippedSpecies, SeventeenOrMoreReadAndSourceEveryFigure) {
  const auto names = shipped_species();
  EXPECT_GE(names.size(), 17U);
  for (const std::string& name : names) {
    SCOPED_TRACE(name);
    const Species species = read_species(name);
    EXPECT_GE(species.requirements.size(), 8U);
    for (const Requirement& row : species.requirements) EXPECT_FALSE(row.source.empty());
  }
}

// A figure comes from a published text, or says that it does not.
TEST(ShippedSpecies, SayThatKeepersMustConfirmThem) {
  for (const fs::path& file : files_ending(kTop / "assets" / "species", ".species.toml")) {
    EXPECT_NE(whole_file(file).find("must confirm"), std::string::npos) << file;
  }
}

}  // namespace
}  // namespace hummock
