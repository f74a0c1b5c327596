// Every stretch of the chains is looked at by each analysis that walks them, or passed by for a
// reason that is told: what the analyses looked at is held against the chains, place by place.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "engine/barrier/walk.h"
#include "engine/dig/stations.h"
#include "engine/openings/barrier_lines.h"
#include "engine/water/water_walls.h"
#include "geometry/plan/polygon.h"
#include "tests/support/yard.h"

namespace hummock::barrier {
namespace {

constexpr double kSpacing = 0.25;  // m, of the stations

double uniform(std::mt19937_64& random, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
}

// An L-shaped yard, either winding, with gates and vestibules, houses within, across and against
// the fence, and a roof of its own outline.
Site random_yard(std::mt19937_64& random) {
  Site site = test::yard(12.0, 10.0, 2.0, random() % 2 == 0 ? SheetKind::solid : SheetKind::mesh);
  site.boundary.outline = {{0, 0}, {12, 0}, {12, 10}, {7, 10}, {7, 6}, {0, 6}};
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5};
  site.boundary.sections[0].panel = uniform(random, 1.0, 3.0);
  if (random() % 2 == 0) {
    std::reverse(site.boundary.outline.begin(), site.boundary.outline.end());
  }
  if (random() % 2 == 0) test::split_sections(site);
  for (const int edge : {0, 4}) {
    Gate& gate = test::add_gate(site, edge, uniform(random, 0.5, 2.5), 1.0, 1.8);
    gate.name = "gate " + std::to_string(edge);
    gate.vestibule = Vestibule{uniform(random, 1.5, 2.5), random() % 2 == 0, true, false};
  }
  const double places[][2] = {{2.0, 2.0}, {11.0, uniform(random, 2.0, 5.0)}, {-2.0, 1.0}};
  int n = 0;
  for (const auto& at : places) {
    House house;
    house.name = "house " + std::to_string(n++);
    house.outline = {
        {at[0], at[1]}, {at[0] + 2.0, at[1]}, {at[0] + 2.0, at[1] + 1.5}, {at[0], at[1] + 1.5}};
    if (random() % 2 == 0) std::reverse(house.outline.begin(), house.outline.end());
    house.height = 2.4;
    house.door = WallOpening{"slide", 1, 0.3, 0.6, 1.0, 0.0, 0.0};
    site.houses.push_back(house);
  }
  site.roof = Roof{};
  site.roof->height = 2.6;
  site.roof->outline = Polygon{{1, 1}, {5, 1}, {5, 5}, {1, 5}};
  return site;
}

struct Line {
  Vec2 a, b;
};

bool near_a_line(const std::vector<Line>& lines, Vec2 p, double within) {
  return std::any_of(lines.begin(), lines.end(), [&](const Line& line) {
    return geom::distance_to_segment(p, line.a, line.b) <= within;
  });
}

// Holds a list against the chains: at the quarters of every stretch that is walked something must
// have been looked at, and nowhere else.
void expect_walked(const Barrier& barrier, Look (*look)(const Stretch&),
                   const std::vector<Line>& seen, double within) {
  for (const Chain& chain : barrier.chains) {
    for (std::size_t k = 0; k < chain.stretches.size(); ++k) {
      const Stretch& s = chain.stretches[k];
      SCOPED_TRACE("chain " + std::to_string(static_cast<int>(chain.kind)) + ", stretch " +
                   std::to_string(k) + ", " + to_string(look(s)));
      if (look(s) != Look::walked) continue;
      for (const double t : {0.25, 0.5, 0.75}) {
        EXPECT_TRUE(near_a_line(seen, lerp(s.a, s.b, t), within)) << t;
      }
    }
  }
}

std::vector<Line> dug_at(const Model& model) {
  const dig::BuriedParts parts(model);
  std::vector<Line> seen;
  for (const dig::StationPlace& place : station_places(model, parts, kSpacing)) {
    if (place.corner || place.folded) continue;
    seen.push_back({place.plane.at, place.plane.at});
  }
  return seen;
}

std::vector<Line> gaps_looked_for(const Model& model) {
  std::vector<Line> seen;
  for (const openings::BarrierLine& line : openings::barrier_lines(model)) {
    seen.push_back({line.a, line.b});
    EXPECT_FALSE(line.sheet.empty());  // what stands there has been found
  }
  return seen;
}

std::vector<Line> water_held_at(const Model& model) {
  std::vector<Line> seen;
  for (const Stretch& s : water::walls_in_the_way(model)) seen.push_back({s.a, s.b});
  return seen;
}

template <class Each>
void for_yards(int count, const Each& each) {
  const std::uint64_t seed = 1862;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < count; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Model model = test::built(random_yard(random));
    each(model, barrier_of(model));
  }
}

TEST(Walks, dig_looks_under_every_stretch_that_it_walks) {
  for_yards(8, [](const Model& model, const Barrier& barrier) {
    expect_walked(barrier, dig::look, dug_at(model), 0.5 * kSpacing + 1e-6);
  });
}

TEST(Walks, gaps_are_looked_for_under_every_stretch_that_openings_walk) {
  for_yards(8, [](const Model& model, const Barrier& barrier) {
    expect_walked(barrier, openings::look, gaps_looked_for(model), 1e-6);
  });
}

TEST(Walks, water_is_held_at_every_stretch_that_it_walks) {
  for_yards(8, [](const Model& model, const Barrier& barrier) {
    expect_walked(barrier, water::look, water_held_at(model), 1e-6);
  });
}

// Why stretches are passed by. No panel, gate or house wall is ever passed by where it would count.
TEST(Walks, what_is_passed_by_is_passed_by_for_a_reason) {
  using L = Look;
  using K = StretchKind;
  for_yards(4, [](const Model&, const Barrier& barrier) {
    for (const Chain& chain : barrier.chains) {
      for (const Stretch& s : chain.stretches) {
        const Look dig = dig::look(s), gap = openings::look(s), water = water::look(s);
        const bool fence = (s.kind == K::panel || s.kind == K::gate) && !s.told_elsewhere;
        const bool house = s.kind == K::house_wall || s.kind == K::house_door;
        EXPECT_EQ(dig == L::walked, fence || house);
        EXPECT_EQ(water == L::walked, fence);
        EXPECT_EQ(gap == L::walked,
                  fence || s.kind == K::vestibule_wall || (s.kind == K::second_gate && s.stands));
        if (s.told_elsewhere) {
          EXPECT_EQ(std::set<Look>({dig, gap, water}), std::set<Look>({L::told_elsewhere}));
        }
        if (s.kind == K::roof_edge) {
          EXPECT_EQ(std::set<Look>({dig, gap, water}), std::set<Look>({L::in_the_air}));
        }
      }
    }
  });
}

// What is joined is the whole again: a panel cut by a house, a wall cut by its door and the fence.
TEST(Walks, what_another_chain_has_cut_is_joined_again) {
  for_yards(4, [](const Model& model, const Barrier& barrier) {
    std::size_t panels = 0;
    for (const barrier::Run& run : runs_of(barrier.chains[0], Join::panel, dig::look)) {
      const Panel& panel = model.panels[static_cast<std::size_t>(run.whole.panel)];
      EXPECT_EQ(run.whole.a, panel.a);
      EXPECT_EQ(run.whole.b, panel.b);
      EXPECT_EQ(run.whole.top_b, panel.top_b);
      ++panels;
    }
    EXPECT_EQ(panels, model.panels.size());
    for (const Chain& chain : barrier.chains) {
      if (chain.kind == ChainKind::roof || chain.kind == ChainKind::vestibule) continue;
      const Polygon& outline =
          chain.kind == ChainKind::boundary
              ? model.outline
              : model.site.houses[static_cast<std::size_t>(chain.index)].outline;
      const auto sides = runs_of(chain, Join::side, dig::look);
      EXPECT_EQ(sides.size(), outline.size());
      for (const barrier::Run& side : sides) {
        EXPECT_EQ(&piece_at(side, side.whole.a), &side.pieces.front());
        EXPECT_EQ(&piece_at(side, side.whole.b), &side.pieces.back());
      }
    }
  });
}

// An edge without a section is a stretch all the same, and it is dug under.
TEST(Walks, an_edge_without_a_fence_is_not_forgotten) {
  Site site = test::yard(6.0, 5.0, 2.0);
  site.boundary.sections[0].edges = {0, 1, 3};
  const Model model = test::built(site);
  const Barrier barrier = barrier_of(model);
  const auto bare =
      std::find_if(barrier.chains[0].stretches.begin(), barrier.chains[0].stretches.end(),
                   [](const Stretch& s) { return s.side == 2; });
  ASSERT_NE(bare, barrier.chains[0].stretches.end());
  EXPECT_FALSE(bare->stands);
  EXPECT_EQ(openings::look(*bare), Look::nothing_stands);
  expect_walked(barrier, dig::look, dug_at(model), 0.5 * kSpacing + 1e-6);
}

}  // namespace
}  // namespace hummock::barrier
