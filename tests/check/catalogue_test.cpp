// The catalogue of figures and the list of analyses: declared once, complete, and held against what
// a requirement asks.
#include "engine/check/catalogue.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "engine/base/input_error.h"
#include "engine/check/analyses.h"
#include "engine/maps/map_layers.h"
#include "engine/report/chapters/brief_groups.h"

namespace hummock {
namespace {

TEST(Catalogue, EveryFigureIsDeclaredOnceByTheAnalysisItsKeyNames) {
  std::set<std::string> seen;
  for (const Analysis& a : analyses()) {
    EXPECT_FALSE(a.figures().empty()) << a.name;
    for (const FigureInfo& f : a.figures()) {
      EXPECT_EQ(analysis_of(f.key), a.name);
      EXPECT_TRUE(seen.insert(f.key).second) << f.key;
      EXPECT_FALSE(f.title.empty()) << f.key;
      EXPECT_EQ(f.title.find('_'), std::string::npos) << f.key << " is told by its key";
      EXPECT_EQ(f.meaning.back(), '.') << f.key;
      EXPECT_GE(f.decimals, 0);
    }
  }
  EXPECT_GT(seen.size(), 100U);
}

// DESIGN §5: keys end in their unit.
TEST(Catalogue, TheUnitIsTheOneTheKeyEndsIn) {
  const std::map<std::string, std::string> units{{"_m2_per_animal", "m² per animal"},
                                                 {"_kwh_m2", "kWh/m²"},
                                                 {"_m2", "m²"},
                                                 {"_m3", "m³"},
                                                 {"_m", "m"},
                                                 {"_deg", "°"},
                                                 {"_share", "of 1"},
                                                 {"_c", "°C"},
                                                 {"_t", "t"},
                                                 {"_count", ""}};
  const auto ends = [](const std::string& key, const std::string& end) {
    return key.size() > end.size() && key.compare(key.size() - end.size(), end.size(), end) == 0;
  };
  int held = 0;
  for (const FigureInfo* f : all_figures()) {
    std::string longest;
    for (const auto& [end, unit] : units) {
      if (ends(f->key, end) && end.size() > longest.size()) longest = end;
    }
    if (longest.empty()) continue;
    EXPECT_EQ(f->unit, units.at(longest)) << f->key;
    ++held;
  }
  EXPECT_GT(held, 70);
}

TEST(Catalogue, EveryFigureBelongsToAChapterOfTheReport) {
  std::set<std::string> ids;
  for (const report::Group& group : report::groups()) ids.insert(group.id);
  for (const FigureInfo* f : all_figures()) EXPECT_TRUE(ids.count(report::group_of(f->key)));
}

Site asking(const std::string& what) {
  Requirement r;
  r.what = what;
  r.at_least = 1.0;
  r.where = {"yard.site.toml", 12, "require[0]"};
  Site site;
  site.requirements = {r};
  return site;
}

TEST(Catalogue, ARequirementOnAnUnknownFigureIsRefusedWithTheNearest) {
  EXPECT_NO_THROW(refuse_bad_requirements(asking("leap.margin")));
  for (const auto& [asked, near] : std::map<std::string, std::string>{
           {"leap.margn", "leap.margin"}, {"space.plan_area", "space.plan_area_m2"}}) {
    try {
      refuse_bad_requirements(asking(asked));
      FAIL() << asked;
    } catch (const InputError& error) {
      EXPECT_EQ(error.where().line, 12);
      EXPECT_EQ(error.where().key, "require[0].what");
      EXPECT_NE(error.allowed().find(near), std::string::npos) << error.what();
    }
  }
  // A text of the results is no figure.
  EXPECT_THROW(refuse_bad_requirements(asking("leap.over")), InputError);
}

// Metres asked of an area, a unit asked of a plain number: one line that says what it is in.
TEST(Catalogue, ARequirementInAnotherUnitIsRefused) {
  struct Asked {
    const char* what;
    const char* unit;
    const char* allowed;
  };
  for (const Asked& asked : {Asked{"space.plan_area_m2", "m", "\"m²\", the unit of"},
                             {"leap.margin", "m", "no unit"},
                             {"relief.mean_slope_deg", "rad", "\"°\""},
                             {"shade.hottest_shade_m2_per_animal", "m²", "m² per animal"}}) {
    Site site = asking(asked.what);
    site.requirements[0].unit = asked.unit;
    try {
      refuse_bad_requirements(site);
      ADD_FAILURE() << asked.what << " in " << asked.unit;
    } catch (const InputError& error) {
      EXPECT_EQ(error.where().line, 12);
      EXPECT_EQ(error.where().key, "require[0].unit");
      EXPECT_EQ(error.found(), "\"" + std::string(asked.unit) + "\"");
      EXPECT_NE(error.allowed().find(asked.allowed), std::string::npos) << error.what();
    }
  }
}

TEST(Catalogue, AUnitMayBeTypedAsAKeyboardHasIt) {
  using Pair = std::pair<const char*, const char*>;
  for (const auto& [what, unit] :
       {Pair{"space.plan_area_m2", "m2"}, Pair{"space.plan_area_m2", "m^2"},
        Pair{"space.plan_area_m2", "m²"}, Pair{"relief.mean_slope_deg", "degrees"},
        Pair{"space.guest_view_share", "share"}, Pair{"leap.margin", "1"},
        Pair{"leap.margin", ""}}) {
    Site site = asking(what);
    site.requirements[0].unit = unit;
    EXPECT_NO_THROW(refuse_bad_requirements(site)) << what << " " << unit;
  }
}

TEST(Catalogue, AFigureIsSaidWithItsDigitsAndUnit) {
  EXPECT_EQ(figure_words("space.plan_area_m2", 108.04), "108.0 m²");
  EXPECT_EQ(figure_words("leap.margin", 0.7357), "0.74");
  EXPECT_EQ(figure_words("relief.mean_slope_deg", 12.34), "12.3°");
  EXPECT_EQ(figure_words("entry.gates_short", 2.0), "2");
  EXPECT_EQ(figure_words("leap.margin", std::nullopt), "–");
  EXPECT_EQ(figure_words("space.volume_m3", -0.004), "0 m³");
}

TEST(Analyses, EachComesAfterThoseItReads) {
  std::set<std::string> before;
  for (const Analysis& a : analyses()) {
    for (const std::string& name : a.after) EXPECT_EQ(before.count(name), 1U) << a.name;
    before.insert(a.name);
  }
}

TEST(Analyses, EveryMapLayerBelongsToOneAndIsListed) {
  std::multiset<std::string> owned;
  for (const Analysis& a : analyses())
    for (const Layer& layer : a.layers) owned.insert(layer.name);
  for (const LayerInfo& layer : maps::layers()) {
    EXPECT_EQ(owned.count(layer.name), 1U) << layer.name;
    EXPECT_FALSE(layer.title.empty() || layer.unit.empty()) << layer.name;
  }
  EXPECT_EQ(owned.size(), maps::layers().size());
  EXPECT_GE(owned.size(), 15U);
}

TEST(Analyses, DependOnTablesTheSiteFileHas) {
  const std::set<std::string> known{"species",  "animals", "climate", "place",    "ground",
                                    "boundary", "roof",    "object",  "planting", "den",
                                    "burrow",   "water",   "viewing", "house",    "surrounding",
                                    "siting",   "leap",    "surface", "station"};
  for (const Analysis& a : analyses()) {
    for (const std::string& table : a.depends_on) EXPECT_EQ(known.count(table), 1U) << table;
  }
}

}  // namespace
}  // namespace hummock
