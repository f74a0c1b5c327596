// A figure asked for by a misspelt key is refused with the nearest one named, in every group.
#include <gtest/gtest.h>

#include "engine/base/input_error.h"
#include "engine/check/analyses.h"
#include "engine/check/catalogue.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// What a requirement of this key is refused with; empty when it is not.
std::string refusal_of(const std::string& what) {
  Site site;
  Requirement row;
  row.what = what;
  const FigureInfo* figure = figure_info(what);
  if (figure != nullptr && !figure->words.empty()) {
    row.one_of = {figure->words.front()};
  } else {
    row.at_least = 1.0;
  }
  row.where = {"s.site.toml", 7, "require[1].what"};
  site.requirements.push_back(row);
  try {
    refuse_bad_requirements(site);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

TEST(MisspeltFigure, IsRefusedInEveryGroupWithTheNearestNamed) {
  int groups = 0;
  for (const Analysis& a : analyses()) {
    ++groups;
    for (const FigureInfo& f : a.figures()) {
      EXPECT_EQ(refusal_of(f.key), "") << f.key;
      std::string turned = f.key;  // two letters the other way round
      std::swap(turned[turned.size() - 1], turned[turned.size() - 2]);
      for (const std::string& wrong : {f.key + "x", turned}) {
        if (figure_info(wrong) != nullptr) continue;
        const std::string line = refusal_of(wrong);
        EXPECT_NE(line.find("s.site.toml:7"), std::string::npos) << wrong << ": " << line;
        EXPECT_NE(line.find("did you mean"), std::string::npos) << wrong << ": " << line;
      }
      EXPECT_NE(refusal_of(f.key + "x").find(f.key), std::string::npos) << f.key;
    }
  }
  EXPECT_GE(groups, 13);
}

// What a requirement of a figure for each animal is refused with.
std::string refusal_for_each(const std::string& what, Per per) {
  Site site;
  Requirement row;
  row.what = what;
  row.at_most = 0.5;
  row.per = per;
  row.where = {"s.site.toml", 7, "require[1]"};
  site.requirements.push_back(row);
  try {
    refuse_bad_requirements(site);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

// By what the figures are: three animals do not have three times the head, and no share is above 1.
TEST(RequirementForEachAnimal, IsOnlyOfWhatAddsUp) {
  for (const Per per : {Per::animal, Per::extra_animal}) {
    for (const char* what : {"sight.seen_share", "openings.largest_m", "space.least_headroom_m",
                             "entry.one_door_ways_out", "leap.margin"}) {
      const std::string line = refusal_for_each(what, per);
      EXPECT_NE(line.find("require[1].per"), std::string::npos) << what << ": " << line;
      EXPECT_NE(line.find("does not add up"), std::string::npos) << what << ": " << line;
    }
    for (const char* what : {"space.plan_area_m2", "space.volume_m3", "sight.hidden_places"}) {
      EXPECT_EQ(refusal_for_each(what, per), "") << what;
    }
  }
  EXPECT_EQ(refusal_for_each("sight.seen_share", Per::group), "");
}

}  // namespace
}  // namespace hummock
