#include "engine/surfaces/surfaces.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/model/soil_over_rock.h"
#include "engine/surfaces/masks.h"
#include "engine/surfaces/plant_cover.h"
#include "engine/usable/living_nodes.h"
#include "engine/usable/usable_ground.h"

namespace hummock::surfaces {
namespace {

constexpr double kNoEnd = std::numeric_limits<double>::infinity();
constexpr double kTiny = 1e-9;   // m
constexpr double kLevel = 1e-5;  // m: rays are float32

// Anchored at the outline's box, so that the yard may lie anywhere.
geom::Grid lattice_of(const Model& model) {
  const geom::Box2 box = geom::bounds(model.outline);
  const Vec2 side = box.hi - box.lo;
  const double apart =
      std::max(std::min(kApart, model.ground.grid.cell), std::sqrt(side.x * side.y / kMostPoints));
  const auto along = [&](double length) {
    return std::max(2, static_cast<int>(std::ceil(length / apart - kTiny)));
  };
  return {box.lo.x + 0.5 * apart, box.lo.y + 0.5 * apart, apart, along(side.x), along(side.y)};
}

// Sums over points.
struct DepthSums {
  double points = 0.0, depth = 0.0, least = kNoEnd;
  void add(double d) {
    points += 1.0;
    depth += d;
    least = std::min(least, d);
  }
  void add(const DepthSums& more) {
    points += more.points;
    depth += more.depth;
    least = std::min(least, more.least);
  }
};
struct LayerSums {
  double points = 0.0;
  DepthSums deep;        // where the depth is said
  double rock = kNoEnd;  // least soil over rock where it is said to be deeper
  void add(const LayerSums& more) {
    points += more.points;
    deep.add(more.deep);
    rock = std::min(rock, more.rock);
  }
};
struct Sums {
  std::vector<LayerSums> layers;  // one a surface, and one more for the ground in none
  DepthSums dig;
  std::array<DepthSums, kDigDepths.size()> digs;
  PlantSums plants;
  void add(const Sums& more) {
    for (std::size_t k = 0; k < layers.size(); ++k) layers[k].add(more.layers[k]);
    dig.add(more.dig);
    for (std::size_t k = 0; k < digs.size(); ++k) digs[k].add(more.digs[k]);
    add_sums(more.plants, plants);
  }
};

class Look {
 public:
  explicit Look(const Model& model)
      : model_(model),
        ground_(model),
        nodes_(usable::find_nodes(model, ground_)),
        lattice_(lattice_of(model)),
        yard_(mask_of(lattice_, model.outline)),
        houses_(masks_of(lattice_, model.site.houses)),
        surfaces_(masks_of(lattice_, model.site.surfaces)),
        buried_(any_buried()),
        stands_(stands_of(model, lattice_)) {}

  const geom::Grid& lattice() const { return lattice_; }

  // In a fixed order, whatever the threads.
  Sums sums() const {
    Sums empty;
    empty.layers.resize(surfaces_.size() + 1);
    std::vector<Sums> rows(static_cast<std::size_t>(lattice_.ny), empty);
    tbb::parallel_for(0, lattice_.ny,
                      [&](int j) { add_row(j, rows[static_cast<std::size_t>(j)]); });
    Sums all = empty;
    for (const Sums& row : rows) all.add(row);
    return all;
  }

  geom::Raster to_dig() const {
    const geom::Grid& g = model_.ground.grid;
    const std::vector<Mask> masks = masks_of(g, model_.site.surfaces);
    geom::Raster out(g);
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i) {
        if (nodes_.live[g.index(i, j)] == 0) continue;
        const Vec2 p = g.node(i, j);
        const std::size_t k = uppermost(masks, i, j);
        const bool wet = ground_.water_depth(p, model_.ground.at(i, j)) > 0.0;
        const auto depth = wet ? std::nullopt : dug_depth(k, p);
        out.at(i, j) = static_cast<float>(depth.value_or(0.0));
      }
    return out;
  }

 private:
  static std::size_t uppermost(const std::vector<Mask>& masks, int i, int j) {
    for (std::size_t k = masks.size(); k-- > 0;)
      if (masks[k].holds(i, j)) return k;
    return masks.size();
  }

  // Nothing: not said.
  std::optional<double> depth_at(std::size_t k, Vec2 p) const {
    if (k >= surfaces_.size() || !model_.site.surfaces[k].depth) return std::nullopt;
    const double said = *model_.site.surfaces[k].depth;
    return std::clamp(soil_over_rock(model_, p).value_or(said), 0.0, said);
  }
  // Nothing: no ground to dig in.
  std::optional<double> dug_depth(std::size_t k, Vec2 p) const {
    const auto depth = depth_at(k, p);
    if (!depth || !is_dug(model_.site.surfaces[k].material)) return std::nullopt;
    return std::min(*depth, over_what_is_buried(p));
  }

  // Down to an apron or a footing, which nothing digs through.
  double over_what_is_buried(Vec2 p) const {
    if (!model_.body_scene || !buried_) return kNoEnd;
    constexpr double kAbove = 1e-3;  // m: an apron may lie on the ground
    const double z = geom::height_at(model_.ground, p) - model_.snow + kAbove;
    for (const geom::Hit& hit : model_.body_scene->all_hits({{p.x, p.y, z}, {0.0, 0.0, -1.0}}))
      if (is_buried(hit.id)) return std::max(0.0, hit.t - kAbove);
    return kNoEnd;
  }
  bool is_buried(std::int32_t id) const {
    if (id == kGroundId) return false;
    const PartKind kind = model_.parts[static_cast<std::size_t>(id)].kind;
    return kind == PartKind::apron || kind == PartKind::footing;
  }
  bool any_buried() const {
    for (std::size_t k = 0; k < model_.parts.size(); ++k)
      if (is_buried(static_cast<std::int32_t>(k))) return true;
    return false;
  }

  // It can stand there, and the nearest node is its own.
  bool lives_at(Vec2 p, double z) const {
    const geom::Grid& g = nodes_.grid;
    const auto nearest = [&](double v, double from, int count) {
      return std::clamp(static_cast<int>(std::lround((v - from) / g.cell)), 0, count - 1);
    };
    if (nodes_.live[g.index(nearest(p.x, g.x0, g.nx), nearest(p.y, g.y0, g.ny))] == 0) return false;
    const Vec3 n = geom::normal_at(model_.ground, p);
    return ground_.can_stand(p, z, {-n.x / n.z, -n.y / n.z});
  }

  void add_row(int j, Sums& sums) const {
    for (int i = 0; i < lattice_.nx; ++i) {
      if (!yard_.holds(i, j) || uppermost(houses_, i, j) < houses_.size()) continue;
      const Vec2 p = lattice_.node(i, j);
      const double z = geom::height_at(model_.ground, p);
      const bool lives = lives_at(p, z);
      if (!lives && ground_.in_solid(p)) continue;
      const std::size_t k = uppermost(surfaces_, i, j);
      add_layer(k, p, sums.layers[k]);
      if (!lives) continue;
      add_point(stands_, i, j, sums.plants);
      if (ground_.water_depth(p, z) > 0.0) continue;
      if (const auto depth = dug_depth(k, p)) add_dug(*depth, sums);
    }
  }

  void add_layer(std::size_t k, Vec2 p, LayerSums& sums) const {
    sums.points += 1.0;
    const auto depth = depth_at(k, p);
    if (!depth) return;
    sums.deep.add(*depth);
    if (*depth < *model_.site.surfaces[k].depth - kTiny) sums.rock = std::min(sums.rock, *depth);
  }

  void add_dug(double depth, Sums& sums) const {
    if (depth >= model_.site.species.dig_depth.value - kLevel) sums.dig.add(depth);
    for (std::size_t d = 0; d < kDigDepths.size(); ++d)
      if (depth >= kDigDepths[d] - kLevel) sums.digs[d].add(depth);
  }

  const Model& model_;
  usable::UsableGround ground_;
  usable::Nodes nodes_;
  geom::Grid lattice_;
  Mask yard_;
  std::vector<Mask> houses_, surfaces_;
  bool buried_ = false;
  std::vector<Stand> stands_;
};

Diggable diggable(double depth_m, const DepthSums& sums, double square) {
  Diggable out{depth_m, sums.points * square, {}, {}};
  if (sums.points > 0.0) {
    out.least_m = sums.least;
    out.mean_m = sums.depth / sums.points;
  }
  return out;
}

std::vector<LayerRow> layer_rows(const Sums& sums, double square) {
  std::vector<LayerRow> out;
  for (std::size_t k = 0; k + 1 < sums.layers.size(); ++k) {
    const LayerSums& layer = sums.layers[k];
    LayerRow row{static_cast<int>(k), layer.points * square, {}};
    if (layer.rock < kNoEnd) row.rock_m = layer.rock;
    out.push_back(row);
  }
  return out;
}

// The layers of one material.
MaterialRow material_row(const Site& site, std::size_t material, const Sums& sums, double square) {
  LayerSums all;
  for (std::size_t k = 0; k < site.surfaces.size(); ++k)
    if (static_cast<std::size_t>(site.surfaces[k].material) == material) all.add(sums.layers[k]);
  MaterialRow out;
  out.area_m2 = all.points * square;
  out.depth_unsaid_m2 = (all.points - all.deep.points) * square;
  if (all.points > 0.0 && all.deep.points == all.points) {
    out.least_m = all.deep.least;
    out.mean_m = all.deep.depth / all.deep.points;
  }
  return out;
}

}  // namespace

bool is_dug(Material material) {
  return material == Material::sand || material == Material::soil || material == Material::loam ||
         material == Material::litter;
}

Result analyse(const Model& model) {
  const Look look(model);
  const Sums sums = look.sums();
  const Site& site = model.site;
  Result out;
  out.apart_m = look.lattice().cell;
  const double square = out.apart_m * out.apart_m;
  for (const LayerSums& layer : sums.layers) out.ground_m2 += layer.points * square;
  out.usable_m2 = sums.plants.points * square;
  out.unsaid_m2 = sums.layers.back().points * square;
  for (std::size_t m = 0; m < kMaterials; ++m) {
    out.materials[m] = material_row(site, m, sums, square);
    if (out.ground_m2 > 0.0) out.materials[m].share = out.materials[m].area_m2 / out.ground_m2;
  }
  for (std::size_t k = 0; k < site.surfaces.size(); ++k)
    if (site.surfaces[k].drains) out.drained_m2 += sums.layers[k].points * square;
  out.dig = diggable(site.species.dig_depth.value, sums.dig, square);
  for (std::size_t d = 0; d < kDigDepths.size(); ++d)
    out.digs[d] = diggable(kDigDepths[d], sums.digs[d], square);
  out.layers = layer_rows(sums, square);
  out.plants = plants_of(sums.plants, square);
  out.to_dig = look.to_dig();
  return out;
}

}  // namespace hummock::surfaces
