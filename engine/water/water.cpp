#include "engine/water/water.h"

#include <algorithm>
#include <cstdint>
#include <utility>

#include "engine/water/basins.h"
#include "engine/water/clear_drain.h"
#include "engine/water/standing_things.h"
#include "engine/water/water_walls.h"
#include "geometry/plan/polygon_cells.h"
#include "geometry/terrain/depression_fill.h"

namespace hummock::water {
namespace {

// The ground as rain finds it: drawn water stands at its level.
geom::Heightfield under_rain(const Model& model, const std::vector<std::int32_t>& wet) {
  geom::Heightfield ground = model.ground;
  for (std::size_t n = 0; n < wet.size(); ++n)
    if (wet[n] != 0)
      ground.z[n] =
          std::max(ground.z[n], *model.site.waters[static_cast<std::size_t>(wet[n] - 1)].level);
  return ground;
}

bool any_drain(const Site& site) {
  return !site.boundary.drains.empty() || std::any_of(site.waters.begin(), site.waters.end(),
                                                      [](const Water& w) { return w.drain; });
}

std::vector<double> rain_levels(const Model& model, const geom::Heightfield& ground,
                                const std::vector<std::uint8_t>& inside,
                                const std::vector<std::int32_t>& wet, const StandingThings& things,
                                bool with_drains) {
  geom::FillOptions options;
  options.crossings = solid_walls(model, inside, with_drains ? Drains::clear : Drains::none);
  options.crossings.insert(options.crossings.end(), things.walls.begin(), things.walls.end());
  options.outlets = things.inside;
  if (with_drains)
    for (std::size_t n = 0; n < wet.size(); ++n)
      if (wet[n] != 0 && model.site.waters[static_cast<std::size_t>(wet[n] - 1)].drain)
        options.outlets.push_back(n);
  std::vector<double> levels = geom::fill_depressions(ground, options);
  // A drawn level met from both sides differs by rounding; that is no pond.
  constexpr double kFilm = 1e-6;  // m
  for (std::size_t n = 0; n < levels.size(); ++n)
    if (levels[n] - ground.z[n] < kFilm) levels[n] = ground.z[n];
  return levels;
}

struct Standing {
  std::vector<Pond> ponds;  // with some depth inside the boundary, outside drawn water
  std::vector<std::size_t> deepest_node;
};

// Depth counts at nodes inside the boundary and outside drawn water.
Standing ponds_of(const Model& model, const geom::Heightfield& ground,
                  const std::vector<double>& levels, const std::vector<std::uint8_t>& inside,
                  const std::vector<std::int32_t>& wet) {
  const geom::Depressions found = geom::find_depressions(ground, levels, [&](Vec2 p) {
    if (!geom::contains(model.outline, p)) return false;
    return std::none_of(model.site.waters.begin(), model.site.waters.end(),
                        [&](const Water& w) { return geom::contains(w.outline, p); });
  });
  std::vector<Pond> ponds(found.list.size());
  std::vector<std::size_t> deepest(found.list.size());
  for (std::size_t k = 0; k < ponds.size(); ++k) {
    ponds[k].area_m2 = found.list[k].area_m2;
    ponds[k].volume_m3 = found.list[k].volume_m3;
  }
  const geom::Grid& g = ground.grid;
  for (std::size_t n = 0; n < g.size(); ++n) {
    if (found.label[n] < 0 || inside[n] == 0 || wet[n] != 0) continue;
    Pond& pond = ponds[static_cast<std::size_t>(found.label[n])];
    if (levels[n] - ground.z[n] <= pond.depth_m) continue;
    pond.depth_m = levels[n] - ground.z[n];
    pond.at = g.node(static_cast<int>(n % static_cast<std::size_t>(g.nx)),
                     static_cast<int>(n / static_cast<std::size_t>(g.nx)));
    deepest[static_cast<std::size_t>(found.label[n])] = n;
  }
  Standing out;
  for (std::size_t k = 0; k < ponds.size(); ++k) {
    if (ponds[k].depth_m <= 0.0) continue;
    out.ponds.push_back(ponds[k]);
    out.deepest_node.push_back(deepest[k]);
  }
  return out;
}

void take_ponds(const Standing& standing, Result& r) {
  for (const Pond& p : standing.ponds) {
    r.ponding_m = std::max(r.ponding_m, p.depth_m);
    r.ponding_area_m2 += p.area_m2;
    r.ponding_volume_m3 += p.volume_m3;
    if (p.depth_m >= kLeastPond) r.ponds.push_back(p);
  }
}

void draw_depth(const geom::Heightfield& ground, const std::vector<double>& levels,
                const std::vector<std::uint8_t>& inside, const std::vector<std::int32_t>& wet,
                Result& r) {
  r.pond_depth = geom::Raster(ground.grid, 0.0F);
  for (std::size_t n = 0; n < levels.size(); ++n)
    if (inside[n] != 0 && wet[n] == 0)
      r.pond_depth.values[n] = static_cast<float>(levels[n] - ground.z[n]);
}

void find_ponds(const Model& model, const std::vector<std::uint8_t>& inside,
                const std::vector<std::int32_t>& wet, const StandingThings& things, Result& r) {
  const geom::Heightfield ground = under_rain(model, wet);
  const std::vector<double> levels = rain_levels(model, ground, inside, wet, things, true);
  take_ponds(ponds_of(model, ground, levels, inside, wet), r);
  draw_depth(ground, levels, inside, wet, r);
  if (any_drain(model.site)) {
    const std::vector<double> shut = rain_levels(model, ground, inside, wet, things, false);
    const Standing without = ponds_of(model, ground, shut, inside, wet);
    for (std::size_t k = 0; k < without.ponds.size(); ++k) {
      const std::size_t n = without.deepest_node[k];
      if (without.ponds[k].depth_m < kLeastPond || levels[n] - ground.z[n] >= kLeastPond) continue;
      r.ponds.push_back(without.ponds[k]);
      r.ponds.back().drained = true;
    }
  }
  std::stable_sort(r.ponds.begin(), r.ponds.end(), [](const Pond& a, const Pond& b) {
    return a.drained != b.drained ? b.drained : a.depth_m > b.depth_m;
  });
}

}  // namespace

Result analyse(const Model& model) {
  Result r;
  const std::vector<std::uint8_t> inside = geom::nodes_inside(model.ground.grid, model.outline);
  const std::vector<std::int32_t> wet = wet_nodes(model);
  const StandingThings things = standing_things(model);
  find_ponds(model, inside, wet, things, r);
  r.shut_drains = shut_drains(model);
  if (model.site.waters.empty()) return r;
  geom::FillOptions options;
  options.crossings = solid_walls(model, inside, Drains::all);
  const std::vector<double> brim = geom::fill_depressions(model.ground, options);
  const DryPieces dry = dry_pieces(model, inside, wet);
  const WayOut way_out(model);
  std::vector<geom::Crossing> walls = std::move(options.crossings);
  walls.insert(walls.end(), things.walls.begin(), things.walls.end());
  for (std::size_t k = 0; k < model.site.waters.size(); ++k) {
    if (!model.site.waters[k].level) continue;  // the model builder fills it in
    r.basins.push_back(basin_row(model, k, brim, wet, dry, way_out, walls));
    r.deepest_m = std::max(r.deepest_m, r.basins.back().deepest_m);
  }
  return r;
}

}  // namespace hummock::water
