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
  row.at_least = 1.0;
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

}  // namespace
}  // namespace hummock
