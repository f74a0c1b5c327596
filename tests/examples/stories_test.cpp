// Each example's story says what the check finds in it. Here the analyses find it.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "engine/check/catalogue.h"
#include "engine/check/check.h"
#include "engine/check/figures.h"
#include "engine/dig/dig.h"
#include "engine/leap/leap.h"
#include "engine/model/model.h"
#include "engine/openings/openings.h"
#include "engine/shade/shade.h"
#include "engine/site/read_site.h"
#include "engine/species/find_species.h"
#include "engine/toml/edit_text.h"
#include "engine/toml/toml_tree.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

std::string file_of(const std::string& name) {
  return tests::source_dir() + "/examples/" + name + "/" + name + ".site.toml";
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
const dig::Settings kCoarse{.station_spacing = 1.5};

const openings::Opening* largest_under_panels(const openings::Result& result) {
  for (const auto& one : result.list) {
    if (one.what == "under panel") return &one;
  }
  return nullptr;
}

const leap::ObjectRow* row_of(const leap::Result& result, const std::string& name) {
  for (const auto& row : result.objects) {
    if (row.name == name) return &row;
  }
  return nullptr;
}

TEST(NorthYard, TheStepStoneIsTheWayOutAndIsToldHowFarToMove) {
  const leap::Result drawn = leap::analyse(model_of("north-yard"));
  ASSERT_TRUE(drawn.escape_leap_m);
  EXPECT_LT(drawn.margin, 1.0);
  EXPECT_EQ(drawn.over, "garden wall");
  ASSERT_FALSE(drawn.route.empty());
  EXPECT_EQ(drawn.route.back().from_thing, "step stone");
  const auto* stone = row_of(drawn, "step stone");
  ASSERT_NE(stone, nullptr);
  EXPECT_EQ(stone->verdict, leap::Verdict::a_way_out);
  // Only what a whole new solve proves is told; the shift told before made a step elsewhere.
  EXPECT_TRUE(stone->move_m || stone->lower_m);
  // Without the stone no leap within the animal's power leads out.
  std::size_t index = 0;
  for (; read_site(file_of("north-yard")).objects[index].name != "step stone"; ++index) {
  }
  const std::string text =
      remove_table(text_of("north-yard"), "object[" + std::to_string(index) + "]");
  EXPECT_GT(leap::analyse(model_of("north-yard", text)).margin, 1.0);
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
  const auto& grid = day.midday_shade_share.grid;
  const int i = static_cast<int>(std::lround((mouth.x - grid.x0) / grid.cell));
  const int j = static_cast<int>(std::lround((mouth.y - grid.y0) / grid.cell));
  EXPECT_LT(day.midday_shade_share.at(i, j), 0.1);
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
  // Raked panels leave nothing but what the walls of the vestibule leave of the dip below them.
  for (const openings::Opening& o : openings::analyse(model_of("larkfell-terrace", raked)).list) {
    EXPECT_TRUE(!o.passes || o.thing == "low gate vestibule") << o.thing;
  }
}

TEST(CraterPaddock, TheLowerRunIsClearedFromTheSlopeAboveIt) {
  const leap::Result drawn = leap::analyse(model_of("crater-paddock"), {.resolution = 0.25});
  ASSERT_TRUE(drawn.escape_leap_m);
  EXPECT_LT(drawn.margin, 1.0);
  EXPECT_EQ(drawn.over, "lower run");
  // On the level the same fence is out of reach: its height is above the leap height.
  const Model model = model_of("crater-paddock");
  EXPECT_GT(model.site.boundary.sections.at(3).height, model.site.species.leap_height.value);
  EXPECT_EQ(model.site.boundary.sections.at(3).name, "lower run");
}

TEST(LarkfellTerrace, WhereThePanelsStepDownTheRoofLeavesAWayOut) {
  const leap::Result drawn = leap::analyse(model_of("larkfell-terrace"));
  EXPECT_LT(drawn.margin, 1.0);
  EXPECT_EQ(drawn.over, "terrace front");
  const std::string raked =
      set_key(text_of("larkfell-terrace"), "boundary.section[0]", "fit", "\"raked\"");
  const leap::Result closed = leap::analyse(model_of("larkfell-terrace", raked));
  EXPECT_FALSE(closed.escape_leap_m);
  EXPECT_GE(closed.margin, 1.0);
}

TEST(CraterPaddock, NothingPassesOrDigsUnder) {
  const Model model = model_of("crater-paddock");
  EXPECT_TRUE(openings::analyse(model).met);
  EXPECT_TRUE(dig::analyse(model, kCoarse).met);
}

// A requirement on a misspelt figure would be "not checked" for ever.
TEST(Requirements, OfEverySpeciesAndExampleNameAFigureThatTheCheckComputes) {
  const Model model = model_of("larkfell-terrace");
  CheckOptions options;
  options.shade_step_minutes = 60.0;
  const CheckResults results = run_check(model, options);
  const Figures figures = figures_of(results, model);
  for (const auto& [key, figure] : figures) {
    EXPECT_NE(figure_info(key), nullptr) << key << " is in no catalogue";
  }
  std::vector<std::vector<Requirement>> briefs;
  for (const std::string& name : shipped_species())
    briefs.push_back(read_species(name).requirements);
  for (const char* name : {"north-yard", "crater-paddock"})
    briefs.push_back(read_site(file_of(name)).requirements);
  std::size_t rows = 0;
  for (const std::vector<Requirement>& brief : briefs) {
    Site asked = model.site;  // of one brief at a time: two may contradict each other
    asked.species.requirements.clear();
    asked.requirements = brief;
    rows += brief.size();
    EXPECT_NO_THROW(refuse_bad_requirements(asked));
    for (const BriefRow& row : judge(asked, figures, results.not_run)) {
      if (!results.sight && row.what.rfind("sight.", 0) == 0) continue;
      EXPECT_NE(row.note, "no figure of this name in the results") << row.what;
    }
  }
  EXPECT_GT(rows, 40U);
}

}  // namespace
}  // namespace hummock
