// Each example's story says what the check finds in it. Here the analyses find it.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "engine/dig/dig.h"
#include "engine/model/model.h"
#include "engine/openings/openings.h"
#include "engine/shade/shade.h"
#include "engine/site/edit_site.h"
#include "engine/site/read_site.h"
#include "engine/site/toml_tree.h"

namespace hummock {
namespace {

std::string file_of(const std::string& name) {
  return std::string(HUMMOCK_SOURCE_DIR) + "/examples/" + name + "/" + name + ".site.toml";
}

std::string text_of(const std::string& name) {
  return read_text_file(file_of(name), "an example");
}

Model model_of(const std::string& name, const std::string& text) {
  return build_model(read_site_text(text, file_of(name)));
}

Model model_of(const std::string& name) {
  return model_of(name, text_of(name));
}

// Stations this far apart find the same weakness, a run long, in less time.
const dig::Settings kCoarse{.station_spacing = 0.75};

const openings::Opening* largest_under_panels(const openings::Result& result) {
  for (const auto& one : result.list) {
    if (one.what == "under panel") return &one;
  }
  return nullptr;
}

TEST(NorthYard, LevelPanesOverTheBankLeaveAGapThatTheFoxPasses) {
  const openings::Result drawn = openings::analyse(model_of("north-yard"));
  const auto* gap = largest_under_panels(drawn);
  ASSERT_NE(gap, nullptr);
  EXPECT_EQ(gap->thing, "glass front");
  EXPECT_TRUE(gap->passes);
  EXPECT_FALSE(drawn.met);
  // Panes cut to the bank close it.
  const std::string raked =
      set_key(text_of("north-yard"), "boundary.section[0]", "fit", "\"raked\"");
  EXPECT_TRUE(openings::analyse(model_of("north-yard", raked)).met);
}

TEST(NorthYard, TheWestRunCanBeDugUnderUntilItHasItsApron) {
  const dig::Result drawn = dig::analyse(model_of("north-yard"), kCoarse);
  EXPECT_FALSE(drawn.met);
  EXPECT_EQ(drawn.worst.thing, "west run");
  EXPECT_NEAR(drawn.worst.least_depth_m, 0.3, 0.02);  // what is buried there
  const std::string text =
      set_key(set_key(text_of("north-yard"), "boundary.section[3]", "buried", "0.5"),
              "boundary.section[3]", "apron", "{ length = 2.2, depth = 0.10, side = \"inside\" }");
  EXPECT_TRUE(dig::analyse(model_of("north-yard", text), kCoarse).met);
}

TEST(NorthYard, TheBurrowLiesInTheSunAllDay) {
  const Model model = model_of("north-yard");
  shade::Settings settings;
  settings.cell = 0.2;
  settings.step_minutes = 20.0;
  const shade::Day day = shade::analyse(model, settings);
  const Vec2 mouth = model.site.burrows.at(0).mouth;
  const auto& grid = day.noon_shade_share.grid;
  const int i = static_cast<int>(std::lround((mouth.x - grid.x0) / grid.cell));
  const int j = static_cast<int>(std::lround((mouth.y - grid.y0) / grid.cell));
  EXPECT_LT(day.noon_shade_share.at(i, j), 0.1);
  EXPECT_GT(day.sun_hours.at(i, j), day.sun_hours_mean);
}

TEST(LarkfellTerrace, LevelPanelsDownTheSlopeLeaveWedges) {
  const Model model = model_of("larkfell-terrace");
  const openings::Result drawn = openings::analyse(model);
  EXPECT_FALSE(drawn.met);
  const auto* gap = largest_under_panels(drawn);
  ASSERT_NE(gap, nullptr);
  EXPECT_EQ(gap->thing, "terrace front");
  EXPECT_TRUE(gap->passes);
  const std::string raked =
      set_key(text_of("larkfell-terrace"), "boundary.section[0]", "fit", "\"raked\"");
  EXPECT_TRUE(openings::analyse(model_of("larkfell-terrace", raked)).met);
}

TEST(CraterPaddock, NothingPassesOrDigsUnder) {
  const Model model = model_of("crater-paddock");
  EXPECT_TRUE(openings::analyse(model).met);
  EXPECT_TRUE(dig::analyse(model, kCoarse).met);
}

}  // namespace
}  // namespace hummock
