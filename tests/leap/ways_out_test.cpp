// Ways out against the barrier's chains: every stretch holds one, or is passed by for a reason.
#include <gtest/gtest.h>

#include <random>

#include "engine/barrier/barrier.h"
#include "engine/leap/places/places.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

using barrier::StretchKind;

// A yard with everything a chain can hold: a gate with its vestibule, a house across the fence or
// inside it, a roof over the whole or a part, an overhang on one side.
Site generated(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(6.0, 5.0, 1.5, SheetKind::solid);
  test::split_sections(site);
  if (seed % 2 == 0) site.boundary.sections[1].overhang = Overhang{0.3, 0.5};
  Gate& gate = test::add_gate(site, 0, between(0.5, 2.0), 0.9, 1.2);
  gate.name = "gate";
  if (seed % 3 != 0) gate.vestibule = Vestibule{1.5, true, true};
  House house;
  house.name = "house";
  const double y = seed % 4 < 2 ? 5.0 - between(0.5, 0.9) : between(2.0, 2.5);
  house.outline = {{2.0, y}, {3.5, y}, {3.5, y + 1.2}, {2.0, y + 1.2}};
  house.height = between(1.0, 2.5);
  site.houses.push_back(house);
  if (seed % 5 == 0) {
    site.roof = Roof{};
    site.roof->kind = SheetKind::mesh;
    site.roof->outline = Polygon{{0, 0}, {6, 0}, {6, between(2.0, 4.0)}, {0, 2.5}};
    site.roof->height = between(1.5, 2.2);
  }
  return site;
}

bool may_be(StretchKind kind, NoExit why) {
  switch (why) {
    case NoExit::none:
    case NoExit::closed:
      return kind == StretchKind::panel || kind == StretchKind::gate ||
             kind == StretchKind::roof_edge;
    case NoExit::with_its_panel:
      return kind == StretchKind::panel || kind == StretchKind::gate;
    case NoExit::told_by_the_boundary:
      return kind == StretchKind::gate;
    case NoExit::behind_a_gate:
      return kind == StretchKind::vestibule_wall || kind == StretchKind::second_gate;
    case NoExit::a_thing_of_its_own:
      return kind == StretchKind::house_wall;
    case NoExit::leads_indoors:
      return kind == StretchKind::house_door;
  }
  return false;
}

TEST(WaysOut, EveryStretchHoldsOneOrIsPassedByForAReason) {
  int with_pieces = 0;
  for (unsigned seed = 1; seed <= 30; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Model model = test::built(generated(seed));
    const PlaceRules rules = place_rules(model.site.species, 0.1, false);
    const WaysOut ways = ways_out(model, rules);
    std::vector<barrier::Stretch> all;
    for (const auto& chain : barrier::barrier_of(model).chains) {
      all.insert(all.end(), chain.stretches.begin(), chain.stretches.end());
    }
    ASSERT_EQ(ways.of_stretch.size(), all.size());
    for (std::size_t k = 0; k < all.size(); ++k) {
      const StretchExit& told = ways.of_stretch[k];
      EXPECT_EQ(told.pieces > 0, told.why == NoExit::none) << k;
      EXPECT_TRUE(may_be(all[k].kind, told.why)) << k;
      if (told.pieces > 0) ++with_pieces;
    }
  }
  EXPECT_GT(with_pieces, 300);
}

// The tops of the model's panels, found without the chains: the middle of each, under open sky,
// lies within a piece of some way out.
TEST(WaysOut, TheTopOfEveryPanelUnderOpenSkyIsOne) {
  for (unsigned seed = 1; seed <= 30; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Model model = test::built(generated(seed));
    const PlaceRules rules = place_rules(model.site.species, 0.1, false);
    const std::vector<PatchPtr> ways = exits(model, rules);
    for (std::size_t k = 0; k < model.panels.size(); ++k) {
      const Panel& panel = model.panels[k];
      const Vec3 top = at_height(lerp(panel.a, panel.b, 0.5), 0.5 * (panel.top_a + panel.top_b));
      const bool hung =
          std::any_of(model.overhangs.begin(), model.overhangs.end(),
                      [&](const OverhangPanel& o) { return o.panel == static_cast<int>(k); });
      const Vec3 in = at_height(geom::left_of(geom::unit(panel.b - panel.a)) * 0.01, 0.01);
      if (hung || model.body_scene->first_hit({top + in, {0, 0, 1}})) continue;
      const bool found = std::any_of(ways.begin(), ways.end(), [&](const PatchPtr& way) {
        return std::any_of(way->pieces.begin(), way->pieces.end(), [&](const SurfacePiece& p) {
          geom::Box3 at;
          at.add(top);
          return box_gap2(p.cell, at) < 0.06 * 0.06;
        });
      });
      EXPECT_TRUE(found) << "panel " << k;
    }
  }
}

}  // namespace
}  // namespace hummock::leap
