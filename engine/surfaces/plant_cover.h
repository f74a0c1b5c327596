// How much of the light from straight above plantings stop, by height.
#pragma once

#include <vector>

#include "engine/surfaces/masks.h"
#include "engine/surfaces/surfaces.h"

namespace hummock::surfaces {

// A planting as the model has it: grown, and as dense as sight and shade take it.
struct Stand {
  PlantKind kind = PlantKind::unsaid;
  Leaf leaf = Leaf::unsaid;
  bool evergreen = false;
  double height = 0.0;        // m
  double density = 0.0;       // m²/m³, in leaf
  double bare_density = 0.0;  // the same with leaves down
  Mask mask;
};
std::vector<Stand> stands_of(const Model& model, const geom::Grid& lattice);

// Sums over points; every figure but `points` is of points.
struct PlantSums {
  double points = 0.0, planted = 0.0, evergreen = 0.0;
  Cover in_leaf, bare;
  std::array<double, kPlantKinds> kinds{};
  std::array<double, kLeaves> leaves{};
};
// Adds point (i, j) of the lattice.
void add_point(const std::vector<Stand>& stands, int i, int j, PlantSums& sums);
void add_sums(const PlantSums& more, PlantSums& sums);
// `area_m2`: of a point's square.
Plants plants_of(const PlantSums& sums, double area_m2);

}  // namespace hummock::surfaces
