// A yard made ready to be searched, and answers compared to the last bit.
#pragma once

#include <gtest/gtest.h>

#include <cstddef>
#include <vector>

#include "engine/leap/places/site_places.h"
#include "engine/leap/search/site_search.h"
#include "tests/support/yard.h"

namespace hummock::leap {

struct Scene {
  Model model;
  SitePlaces places;
  std::vector<PatchPtr> patches;
  LinkRules links;
};

// `folded`: its ground in blocks, however small.
inline Scene scene_of(const Site& site, bool folded = false) {
  Scene scene;
  scene.model = test::built(site);
  Settings settings;
  settings.resolution = 0.05;
  const PlaceRules rules = place_rules(scene.model.site.species, settings);
  scene.places = site_places(scene.model, rules);
  if (folded) scene.places.ground = ground_places(scene.model, rules, 0);
  scene.patches = scene.places.all();
  scene.links = link_rules(rules.ability, settings);
  return scene;
}

inline void expect_equal_answers(const SearchResult& a, const SearchResult& b) {
  EXPECT_EQ(a.complete, b.complete);
  EXPECT_EQ(a.key, b.key);
  EXPECT_EQ(a.flights, b.flights);
  EXPECT_EQ(a.assumed, b.assumed);
  EXPECT_TRUE(a.touched.lo == b.touched.lo && a.touched.hi == b.touched.hi);
  ASSERT_EQ(a.patches.size(), b.patches.size());
  for (std::size_t k = 0; k < a.patches.size(); ++k) {
    const Gained& g = a.patches[k];
    const Gained& h = b.patches[k];
    EXPECT_EQ(g.required_leap, h.required_leap) << k;
    EXPECT_EQ(g.required_leap_above, h.required_leap_above) << k;
    EXPECT_EQ(g.by.kind, h.by.kind) << k;
    EXPECT_EQ(g.by.from_patch, h.by.from_patch) << k;
    EXPECT_TRUE(g.by.from == h.by.from && g.by.to == h.by.to && g.by.aim == h.by.aim) << k;
    EXPECT_EQ(g.by.effort, h.by.effort) << k;
    EXPECT_EQ(g.by.effort_below, h.by.effort_below) << k;
    EXPECT_EQ(g.by.apex, h.by.apex) << k;
  }
}

}  // namespace hummock::leap
