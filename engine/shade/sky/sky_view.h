// How much of the sky's light reaches the ground.
#pragma once

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/tile_groups.h"

namespace hummock::shade {

// A patch of the sky, seen along its middle, with what it gives a surface without anything in the
// way: `level` for each unit of the surface's upward normal, `side` for its horizontal part.
struct SkyPatch {
  SunRay ray;
  double level = 0.0;
  Vec2 side;
};
// Patches of equal share of a level surface's isotropic light: rings of equal sin² of the zenith
// angle, turned against each other by the golden ratio; their sums over each patch are exact. For a
// level point beside an endless wall, and for open slopes, the sum over all is within 0.01 of the
// closed forms (tested); among mesh, walls, boxes and crowns within 0.02 of 16,384 rays at a node,
// 0.005 on the mean (tested).
inline constexpr int kSkyRings = 12;
inline constexpr int kSkyDirections = kSkyRings * 32;
std::vector<SkyPatch> sky_patches();

// Share of an isotropic sky's light that reaches each node's own slope, through all that stands in
// the way, 1 for an open level surface: of the tiles of a group, one after the other. `sweeps`: one
// a patch (FastBeam::sweeps).
using TileView = std::array<double, kTileNodes>;
std::vector<TileView> sky_view(const FastBeam& fast, const std::vector<Tile>& tiles,
                               const TileGroup& group, const std::vector<SkyPatch>& sky,
                               const std::vector<GroundStatus>& sweeps, const sun::Date& date);

}  // namespace hummock::shade
