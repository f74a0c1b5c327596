#include "engine/surfaces/plant_cover.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace hummock::surfaces {
namespace {

constexpr std::size_t kBands = kBandsFrom.size();
constexpr double kTouches = 1e-9;  // m: heights are known to rounding

// Above the ground it is draped on.
double height_of(const Model& model, const geom::Mesh& mesh) {
  double height = 0.0;
  for (const Vec3& v : mesh.vertices)
    height = std::max(height, v.z - geom::height_at(model.ground, geom::xy(v)));
  return height;
}

// Leaf area over a square metre of ground, in a band and in all.
struct Leaves {
  std::array<double, kBands> bands{};
  double all = 0.0;
};

void add_leaves(double height, double density, Leaves& leaves) {
  for (std::size_t b = 0; b < kBands; ++b) {
    const double top = b + 1 < kBands ? kBandsFrom[b + 1] : std::numeric_limits<double>::infinity();
    const double way = std::min(height, top) - kBandsFrom[b];
    if (way > kTouches) leaves.bands[b] += density * way;
  }
  leaves.all += density * height;
}

double stopped(double leaf_area) {
  constexpr double kAllAngles = 0.5;  // as engine/model/optics.h has it
  return 1.0 - std::exp(-kAllAngles * leaf_area);
}

void add_cover(const Leaves& leaves, Cover& cover) {
  for (std::size_t b = 0; b < kBands; ++b) cover.bands[b] += stopped(leaves.bands[b]);
  cover.all += stopped(leaves.all);
}

Cover mean(Cover sums, double points) {
  for (double& band : sums.bands) band /= points;
  sums.all /= points;
  return sums;
}

}  // namespace

std::vector<Stand> stands_of(const Model& model, const geom::Grid& lattice) {
  std::vector<Stand> out;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::planting || part.source < 0) continue;
    const Planting& p = model.site.plantings[static_cast<std::size_t>(part.source)];
    const double left = part.bare ? part.bare_share : 1.0;
    out.push_back({p.kind, p.leaf, p.evergreen, height_of(model, part.mesh), part.leaf_density,
                   part.leaf_density * left, mask_of(lattice, p.outline)});
  }
  return out;
}

void add_point(const std::vector<Stand>& stands, int i, int j, PlantSums& sums) {
  Leaves in_leaf, bare;
  bool planted = false, evergreen = false;
  std::array<bool, kPlantKinds> kinds{};
  std::array<bool, kLeaves> sorts{};
  for (const Stand& stand : stands) {
    if (!stand.mask.holds(i, j)) continue;
    planted = true;
    evergreen = evergreen || stand.evergreen;
    kinds[static_cast<std::size_t>(stand.kind)] = true;
    sorts[static_cast<std::size_t>(stand.leaf)] = true;
    add_leaves(stand.height, stand.density, in_leaf);
    add_leaves(stand.height, stand.bare_density, bare);
  }
  sums.points += 1.0;
  if (!planted) return;
  sums.planted += 1.0;
  sums.evergreen += evergreen ? 1.0 : 0.0;
  for (std::size_t k = 0; k < kPlantKinds; ++k) sums.kinds[k] += kinds[k] ? 1.0 : 0.0;
  for (std::size_t k = 0; k < kLeaves; ++k) sums.leaves[k] += sorts[k] ? 1.0 : 0.0;
  add_cover(in_leaf, sums.in_leaf);
  add_cover(bare, sums.bare);
}

void add_sums(const PlantSums& more, PlantSums& sums) {
  const auto add_covers = [](const Cover& from, Cover& to) {
    for (std::size_t b = 0; b < kBands; ++b) to.bands[b] += from.bands[b];
    to.all += from.all;
  };
  sums.points += more.points;
  sums.planted += more.planted;
  sums.evergreen += more.evergreen;
  add_covers(more.in_leaf, sums.in_leaf);
  add_covers(more.bare, sums.bare);
  for (std::size_t k = 0; k < kPlantKinds; ++k) sums.kinds[k] += more.kinds[k];
  for (std::size_t k = 0; k < kLeaves; ++k) sums.leaves[k] += more.leaves[k];
}

Plants plants_of(const PlantSums& sums, double area_m2) {
  Plants out;
  if (sums.points == 0.0) return out;
  out.in_leaf = mean(sums.in_leaf, sums.points);
  out.bare = mean(sums.bare, sums.points);
  out.planted_share = sums.planted / sums.points;
  out.evergreen_share = sums.evergreen / sums.points;
  for (std::size_t k = 0; k < kPlantKinds; ++k) out.kind_m2[k] = sums.kinds[k] * area_m2;
  for (std::size_t k = 0; k < kLeaves; ++k) out.leaf_m2[k] = sums.leaves[k] * area_m2;
  return out;
}

}  // namespace hummock::surfaces
