// The ground in blocks against the same ground square by square.
#include "engine/leap/ground/ground_folds.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <tuple>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/places/places.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

TEST(BlockGrid, HoldsWhatAPlainArrayHolds) {
  std::mt19937 random(5);
  for (int round = 0; round < 20; ++round) {
    const int nx = 1 + static_cast<int>(random() % 60), ny = 1 + static_cast<int>(random() % 60);
    BlockGrid<int> grid(nx, ny, 3);
    std::vector<int> plain(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny), 3);
    const auto at = [&](int i, int j) -> int& {
      return plain[static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) +
                   static_cast<std::size_t>(i)];
    };
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    for (int step = 0; step < 60; ++step) {
      const BlockGrid<int> before = grid;
      const std::vector<int> plain_before(plain.begin(), plain.end());
      const int i0 = below(nx), j0 = below(ny);
      const int i1 = i0 + below(nx - i0), j1 = j0 + below(ny - j0);
      const int value = below(4);
      if (step % 3 == 0) {
        grid.set(i0, j0, value);
        at(i0, j0) = value;
      } else {
        grid.fill(i0, j0, i1, j1, value);
        for (int j = j0; j <= j1; ++j)
          for (int i = i0; i <= i1; ++i) at(i, j) = value;
      }
      grid.join(i0 / kBlock, j0 / kBlock);
      for (int j = 0; j < ny; ++j) {
        for (int i = 0; i < nx; ++i) {
          ASSERT_EQ(grid.at(i, j), at(i, j));
          // The copy shares blocks and keeps its own.
          ASSERT_EQ(before.at(i, j),
                    plain_before[static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) +
                                 static_cast<std::size_t>(i)]);
        }
      }
    }
  }
}

// Of rough ground, with squares finer than its cells and coarser.
TEST(GroundSurface, ABoxHoldsItsCellsAndNoMore) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> rise(-1.0, 1.0);
  for (const double cell : {0.03, 0.05, 0.1, 0.25, 1.0}) {
    Site site = test::yard(6.0, 5.0, 1.5);
    site.ground.cell = cell;
    Model model = test::built(site);
    for (double& z : model.ground.z) z = rise(random);
    const GroundSurface surface(model, place_rules(model.site.species, 0.07, false));
    for (int k = 0; k < 200; ++k) {
      const auto below = [&](int n) {
        return static_cast<int>(random() % static_cast<unsigned>(n));
      };
      const int i0 = below(surface.nx()), j0 = below(surface.ny());
      const int i1 = std::min(surface.nx() - 1, i0 + below(kBlock));
      const int j1 = std::min(surface.ny() - 1, j0 + below(kBlock));
      geom::Box3 all;
      for (int j = j0; j <= j1; ++j)
        for (int i = i0; i <= i1; ++i) all.add(surface.cell(i, j));
      const geom::Box3 box = surface.box(i0, j0, i1, j1);
      EXPECT_LE(box.lo.x, all.lo.x);
      EXPECT_LE(box.lo.y, all.lo.y);
      EXPECT_GE(box.hi.x, all.hi.x);
      EXPECT_GE(box.hi.y, all.hi.y);
      EXPECT_LE(box.lo.z, all.lo.z);
      EXPECT_GE(box.hi.z, all.hi.z);
      EXPECT_NEAR(box.lo.z, all.lo.z, 2e-9) << cell;
      EXPECT_NEAR(box.hi.z, all.hi.z, 2e-9) << cell;
    }
  }
}

// What is found of many squares at once is what is found of each, to the last bit.
TEST(GroundSurface, CellsAndMiddlesOfABlockAreThoseOfItsSquares) {
  std::mt19937 random(12);
  std::uniform_real_distribution<double> rise(-1.0, 1.0);
  for (const double cell : {0.03, 0.05, 0.1, 0.25, 1.0}) {
    Site site = test::yard(6.0, 5.0, 1.5);
    site.ground.cell = cell;
    Model model = test::built(site);
    for (double& z : model.ground.z) z = rise(random);
    const GroundSurface surface(model, place_rules(model.site.species, 0.07, false));
    for (int k = 0; k < 100; ++k) {
      const auto below = [&](int n) {
        return static_cast<int>(random() % static_cast<unsigned>(n));
      };
      const int i0 = below(surface.nx()), j0 = below(surface.ny());
      const int i1 = std::min(surface.nx() - 1, i0 + below(kBlock));
      const int j1 = std::min(surface.ny() - 1, j0 + below(kBlock));
      const auto cells = surface.cells(i0, j0, i1, j1);
      const auto middles = surface.middles(i0, j0, i1, j1);
      ASSERT_EQ(cells.size(), static_cast<std::size_t>((i1 - i0 + 1) * (j1 - j0 + 1)));
      ASSERT_EQ(middles.size(), cells.size());
      std::size_t at = 0;
      for (int j = j0; j <= j1; ++j) {
        for (int i = i0; i <= i1; ++i, ++at) {
          ASSERT_EQ(cells[at].lo, surface.cell(i, j).lo) << cell;
          ASSERT_EQ(cells[at].hi, surface.cell(i, j).hi) << cell;
          ASSERT_EQ(middles[at], surface.height(surface.at(i, j, 0.5, 0.5))) << cell;
        }
      }
    }
  }
}

// Mounds too steep to stand on, a pool, a wall from fence to fence, boxes.
Site rough_yard(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(6.0, 5.0, 1.5);
  for (int k = 0; k < 3; ++k)
    test::add_mound(site, {between(1.5, 5), between(1.5, 4)}, between(0.5, 1.5), between(0.5, 1.5));
  test::add_box(site, "wall", {3.0, 2.5}, {0.3, 6.0, 0.6});
  test::add_box(site, "box", {between(1, 5), between(1, 4)}, {0.5, 0.4, 0.4}).turn = between(0, 1);
  Water pool;
  pool.name = "pool";
  pool.outline = {{4.0, 0.5}, {5.5, 0.5}, {5.5, 1.6}, {4.0, 1.6}};
  pool.level = 0.3;
  site.waters = {pool};
  if (seed % 2 == 0) site.leap_start = Vec2{0.4, 0.4};
  if (seed % 3 == 0) site.species.climbs.value = {"earth"};
  return site;
}

std::vector<SurfacePiece> in_order(std::vector<SurfacePiece> pieces) {
  std::sort(pieces.begin(), pieces.end(), [](const SurfacePiece& p, const SurfacePiece& q) {
    return std::tie(p.cell.lo.y, p.cell.lo.x) < std::tie(q.cell.lo.y, q.cell.lo.x);
  });
  return pieces;
}

TEST(GroundFolds, AFoldHoldsItsPiecesAndAllOfThemAreThoseLaidWhole) {
  for (unsigned seed = 1; seed <= 24; ++seed) {
    SCOPED_TRACE(seed);
    const Model model = test::built(rough_yard(seed));
    PlaceRules rules = place_rules(model.site.species, seed % 5 == 0 ? 0.02 : 0.06, false);
    rules.body.swims = seed % 4 < 2;
    const GroundPlaces folded = ground_places(model, rules, 0);
    const GroundPlaces whole = ground_places(model, rules, 1 << 30);
    EXPECT_EQ(folded.living_area_m2, whole.living_area_m2);
    ASSERT_EQ(folded.patches.size(), whole.patches.size());
    for (std::size_t k = 0; k < whole.patches.size(); ++k) {
      const Patch& patch = *folded.patches[k];
      ASSERT_TRUE(patch.folds);
      for (const SurfacePiece& fold : patch.pieces) {
        std::vector<SurfacePiece> below;
        patch.folds->unfold(fold.fold, patch.part_of_folds, below);
        ASSERT_FALSE(below.empty());
        for (const SurfacePiece& p : below) {
          geom::Box3 both = fold.cell;
          both.add(p.cell);
          EXPECT_TRUE(both.lo == fold.cell.lo && both.hi == fold.cell.hi);
          EXPECT_TRUE(fold.hook || !p.hook);
        }
      }
      const std::vector<SurfacePiece> laid = in_order(all_pieces(patch));
      const std::vector<SurfacePiece> all = in_order(whole.patches[k]->pieces);
      ASSERT_EQ(laid.size(), all.size());
      for (std::size_t i = 0; i < laid.size(); ++i) {
        const SurfacePiece &p = laid[i], &q = all[i];
        EXPECT_TRUE(p.at == q.at && p.cell.lo == q.cell.lo && p.cell.hi == q.cell.hi &&
                    p.hook == q.hook && p.cling == q.cling && p.slid == q.slid);
      }
    }
  }
}

bool same_patch(const Patch& a, const Patch& b) {
  const auto same_pieces = [](const SurfacePiece& p, const SurfacePiece& q) {
    return p.at == q.at && p.cell.lo == q.cell.lo && p.cell.hi == q.cell.hi && p.hook == q.hook &&
           p.cling == q.cling && p.slid == q.slid;
  };
  const auto same_nodes = [](const TreeNode& p, const TreeNode& q) {
    return p.box.lo == q.box.lo && p.box.hi == q.box.hi && p.left == q.left && p.first == q.first &&
           p.count == q.count && p.hook == q.hook && p.stand == q.stand;
  };
  return std::equal(a.pieces.begin(), a.pieces.end(), b.pieces.begin(), b.pieces.end(),
                    same_pieces) &&
         std::equal(a.tree.begin(), a.tree.end(), b.tree.begin(), b.tree.end(), same_nodes);
}

// Asks for all that is laid of the ground.
std::size_t lay_all(const GroundPlaces& places) {
  std::size_t laid = 0;
  const auto parts = static_cast<int>(places.patches.size());
  const auto blocks = places.folds->blocks(parts);
  for (int part = 0; part < parts; ++part) {
    for (const SurfacePiece& block : blocks[static_cast<std::size_t>(part)]) {
      places.folds->laid(block.fold, part);
      ++laid;
    }
  }
  return laid;
}

// A box moved, lifted and turned at random: what is kept of before is what would be laid now.
TEST(GroundFolds, WhatIsKeptAfterAMoveIsWhatIsLaidAfresh) {
  std::mt19937 random(77);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  std::size_t kept = 0, dropped = 0;
  for (unsigned seed = 1; seed <= 8; ++seed) {
    Site site = rough_yard(seed);
    Model model = test::built(site);
    PlaceRules rules = place_rules(model.site.species, 0.06, false);
    rules.body.swims = seed % 4 < 2;
    GroundPlaces places = ground_places(model, rules, 0);
    for (int move = 0; move < 5; ++move) {
      const std::size_t laid = lay_all(places);
      ASSERT_EQ(places.folds->kept(), move == 0 ? 0 : laid);  // before any move nothing is
      std::vector<geom::Box3> changed{
          geom::bounds(model.parts[static_cast<std::size_t>(model.object_part[1])].mesh)};
      Object& box = site.objects[1];
      if (move % 2 == 0) box.at = {between(0.2, 5.8), between(0.2, 4.8)};
      if (move % 2 == 1) box.z = between(0.0, 0.5);
      box.turn += between(-1.0, 1.0);
      model = test::built(site);
      changed.push_back(
          geom::bounds(model.parts[static_cast<std::size_t>(model.object_part[1])].mesh));
      places = ground_places_again(model, rules, places, changed);
      kept += places.folds->kept();
      dropped += move == 0 ? 0 : laid - places.folds->kept();
      const GroundPlaces fresh = ground_places(model, rules, 0);
      ASSERT_EQ(places.patches.size(), fresh.patches.size());
      for (std::size_t k = 0; k < fresh.patches.size(); ++k) {
        for (const SurfacePiece& block : fresh.patches[k]->pieces) {
          const int part = static_cast<int>(k);
          ASSERT_TRUE(same_patch(*places.folds->laid(block.fold, part),
                                 *fresh.folds->laid(block.fold, part)))
              << "seed " << seed << " move " << move << " block " << block.fold;
        }
      }
    }
  }
  // The test means something only where both happen often.
  EXPECT_GT(kept, 500U);
  EXPECT_GT(dropped, 50U);
}

}  // namespace
}  // namespace hummock::leap
