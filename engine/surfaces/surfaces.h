// Surfaces: what the ground is made of, where there is ground to dig in, and what grows on it.
//
// Model. The yard is looked at on a lattice of points kApart apart (or the ground's cell, where
// that is finer; wider in yards of more than kMostPoints points), anchored at the corner of the
// outline's box; each point stands for its square. An area is off by at most the length of its
// outline times half of that, on average by nothing; outlines along the lattice are exact.
//   ground    points inside the outline, in no house and in no solid that stands there (stones,
//             boxes, dens: what stands on a surface takes its footprint off it). Ground under water
//             is ground.
//   material  that of the last [[surface]] of the file whose outline holds the point: a later one
//             lies over an earlier one, and hides it. Ground in none is `unsaid`: it counts as no
//             material. It may be of any, so while some is unsaid the area of a material is known
//             only to be at least what is said; the same holds of ground to dig in, and of kinds of
//             plants while a planting does not say its own.
//   depth     as said, but nowhere deeper than rock or liner lies (engine/model/soil_over_rock.h).
//             What lies under the uppermost surface is not added. A depth that is not said is not
//             known: then the material has no least and no mean depth.
//   diggable  sand, soil, loam or litter at least so deep, down to an apron or a footing where one
//             lies under it, on dry ground the animal can live on and comes to
//             (engine/usable/usable_ground.h: no steeper than it stands). Deep enough is
//             told for what the animal digs (dig_depth; any depth that is said, where that is 0)
//             and for four depths. Turf is not counted: its roots hold.
//   plants    over usable ground, the share of light and sight from straight above that plantings
//             stop, in bands of height and in all, 1 − exp(−½ · leaf area density · way through
//             the band): what sight and shade take of them. In leaf, and with every planting that
//             falls bare standing bare at once, twigs left (kBareShare). Crowns of trees drawn as
//             objects are not counted, nor are surroundings.
//
// What the surfaces are made of changes no other answer: a tunnel is taken to go through concrete
// and rock that is drawn here, and rain to pond on what drains. Footings, floors and soil depth are
// where that is said.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::surfaces {

inline constexpr double kApart = 0.1;       // m, between points; numeric, a setting
inline constexpr double kMostPoints = 4e6;  // numeric, a limit of work

inline constexpr std::size_t kMaterials = 8;   // of the site file; definition
inline constexpr std::size_t kPlantKinds = 6;  // the same, the unsaid one first; definition

inline constexpr std::size_t kLeaves = 3;  // the same; definition

// m: to scratch and bathe in, to lie in, to den in, to tunnel in; common practice, no source.
inline constexpr std::array<double, 4> kDigDepths{0.15, 0.3, 0.6, 1.0};
// m above the ground, between bands of cover; the last is open above. Common practice, no source.
inline constexpr std::array<double, 4> kBandsFrom{0.0, 0.3, 1.0, 2.0};

struct MaterialRow {
  double area_m2 = 0.0;
  double share = 0.0;                     // of the ground
  std::optional<double> least_m, mean_m;  // depth; nothing: none there, or not said everywhere
  double depth_unsaid_m2 = 0.0;
};
struct Diggable {
  double depth_m = 0.0;  // at least so deep; 0: any depth that is said
  double area_m2 = 0.0;
  std::optional<double> least_m, mean_m;  // depth there; nothing where there is none
};
// A [[surface]] as far as it lies uppermost on the ground.
struct LayerRow {
  int surface = 0;  // index into site.surfaces
  double area_m2 = 0.0;
  std::optional<double>
      rock_m;  // it is said to be deeper than this, the least soil over rock there
};
struct Cover {
  double all = 0.0;                               // of 1, over the whole height
  std::array<double, kBandsFrom.size()> bands{};  // of 1, by kBandsFrom
};
struct Plants {
  Cover in_leaf, bare;
  double planted_share = 0.0;                 // of usable ground, under one planting or more
  double evergreen_share = 0.0;               // the same of those said to be evergreen
  std::array<double, kPlantKinds> kind_m2{};  // of usable ground, by kind
  std::array<double, kLeaves> leaf_m2{};      // the same by sort of leaf
};
struct Result {
  double apart_m = 0.0;  // between points
  double ground_m2 = 0.0;
  double usable_m2 = 0.0;  // of the ground, what the animal can live on
  std::array<MaterialRow, kMaterials> materials;
  double unsaid_m2 = 0.0;
  double drained_m2 = 0.0;  // of surfaces said to drain
  Diggable dig;             // for what the animal digs
  std::array<Diggable, kDigDepths.size()> digs;
  std::vector<LayerRow> layers;  // one a [[surface]], in their order
  Plants plants;
  geom::Raster to_dig;  // m of ground to dig in, 0 where there is none; NaN off the usable ground
};

Result analyse(const Model& model);

// Animals dig in it: sand, soil, loam, litter.
bool is_dug(Material material);

}  // namespace hummock::surfaces
