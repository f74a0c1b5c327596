#include "engine/shade/beam/fast_beam.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/shade/beam/may_shade.h"
#include "engine/shade/beam/round_shade.h"
#include "engine/shade/beam/scan_triangle.h"

namespace hummock::shade {
namespace {

// Opaque parts with more triangles than this go to rays: scanning them would cost more than the
// rays of the tiles they shade (measured; tests/bench/shade.cpp).
constexpr std::size_t kHeavyTriangles = 8192;

void spread(TileBeam& beam) {
  if (!beam.uniform) return;
  beam.each.fill(beam.value);
  beam.uniform = false;
}

void multiply(TileBeam& beam, float factor) {
  beam.value *= factor;
  if (!beam.uniform)
    for (float& v : beam.each) v *= factor;
}

bool dark(const TileBeam& beam) {
  if (beam.uniform) return beam.value <= 0.0F;
  float most = 0.0F;
  for (const float v : beam.each) most = std::max(most, v);
  return most <= 0.0F;
}

void make_dark(TileBeam& beam) {
  beam.uniform = true;
  beam.value = 0.0F;
}

// What one part does to one tile.
class PartOverTile {
 public:
  PartOverTile(const Tile& tile, const SunRay& sun, const ShadowNodes& nodes)
      : tile_(tile), sun_(sun), nodes_(nodes), run_{sun.run, sun.run}, along_(unit(sun.run)) {}

  void apply(const Caster& c, const sun::Date& date, TileBeam& beam) {
    if (c.kind == CasterKind::opaque) {
      opaque(c, beam);
    } else if (c.kind == CasterKind::sheet) {
      sheet(c, beam);
    } else if (c.round) {
      round(c, date, beam);
    } else {
      volume(c, date, beam);
    }
  }

 private:
  void place_points(const Cluster& cluster) {
    points_.clear();
    for (const Vec3& v : cluster.points) {
      const double z = v.z - tile_.ref.z;
      points_.push_back({static_cast<float>(v.x - tile_.ref.x - z * sun_.run.x),
                         static_cast<float>(v.y - tile_.ref.y - z * sun_.run.y),
                         static_cast<float>(z)});
    }
  }

  // Sets up triangle k if it touches the tile.
  Touch meet(const Cluster& c, std::size_t k) {
    const auto& [i, j, l] = c.triangles[k];
    return touch(nodes_, points_[i], points_[j], points_[l], triangle_);
  }

  // Calls work(cluster, k, touch) for the triangles that may touch the tile, until it says stop.
  template <class Work>
  void over_triangles(const Caster& c, const Work& work) {
    if (c.clusters.size() == 1) {  // its box is the part's, which was asked
      over_cluster(c, c.clusters.front(), work);
      return;
    }
    for (const int id : c.near_clusters.near(tile_.box, run_, along_))
      if (!over_cluster(c, c.clusters[static_cast<std::size_t>(id)], work)) return;
  }

  // False when told to stop.
  template <class Work>
  bool over_cluster(const Caster& c, const Cluster& cluster, const Work& work) {
    place_points(cluster);
    for (std::size_t k = 0; k < cluster.triangles.size(); ++k) {
      // Every line that meets a closed solid leaves it through a face that looks to the sun.
      const Vec3& normal = c.normals[cluster.ids[k]];
      if (c.closed && c.kind == CasterKind::opaque && dot(normal, sun_.towards) <= 0.0) continue;
      const Touch t = meet(cluster, k);
      if (t != Touch::none && !work(cluster, k, t)) return false;
    }
    return true;
  }

  void opaque(const Caster& c, TileBeam& beam) {
    bool any = false;
    over_triangles(c, [&](const Cluster&, std::size_t, Touch t) {
      if (t == Touch::whole) {
        make_dark(beam);
        any = false;
        return false;
      }
      spread(beam);
      scan_factor(nodes_, triangle_, 0.0F, beam.each.data());
      return any = true;
    });
    if (any && dark(beam)) make_dark(beam);
  }

  void sheet(const Caster& c, TileBeam& beam) {
    const Vec3* of = nullptr;  // the normal whose share is known: a panel's triangles have one
    float share = 0.0F;
    over_triangles(c, [&](const Cluster& cluster, std::size_t k, Touch t) {
      const Vec3& normal = c.normals[cluster.ids[k]];
      if (of == nullptr || !(*of == normal))
        share = static_cast<float>(sheet_transmittance(c, normal, sun_.towards));
      of = &normal;
      if (t == Touch::whole) {
        multiply(beam, share);
        return true;
      }
      spread(beam);
      scan_factor(nodes_, triangle_, share, beam.each.data());
      return true;
    });
  }

  void round(const Caster& c, const sun::Date& date, TileBeam& beam) {
    const RoundShade shade(*c.round, sun_, tile_.ref);
    if (!shade.may_meet(tile_)) return;
    spread(beam);
    shade.darken(tile_, static_cast<float>(extinction(c, date)), beam.each.data());
  }

  void volume(const Caster& c, const sun::Date& date, TileBeam& beam) {
    alignas(32) std::array<float, kTileNodes> rise{};
    bool any = false;
    over_triangles(c, [&](const Cluster& cluster, std::size_t k, Touch) {
      // Which way the triangle looks, by the same numbers that say which nodes lie under it.
      scan_height(nodes_, triangle_, faces_sun(cluster, k) ? 1.0F : -1.0F, rise.data());
      return any = true;
    });
    if (!any) return;
    spread(beam);
    const auto per_rise = static_cast<float>(extinction(c, date) * sun_.slant);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (rise[k] > 0.0F && beam.each[k] > 0.0F) beam.each[k] *= std::exp(-per_rise * rise[k]);
    }
  }

  // In shadow coordinates an upward-looking-to-the-sun triangle keeps its winding.
  bool faces_sun(const Cluster& c, std::size_t k) const {
    const geom::Triangle& i = c.triangles[k];
    const ShadowPoint &p = points_[i[0]], &q = points_[i[1]], &r = points_[i[2]];
    return (double{q.x} - p.x) * (double{r.y} - p.y) - (double{q.y} - p.y) * (double{r.x} - p.x) >
           0.0;
  }

  const Tile& tile_;
  const SunRay& sun_;
  const ShadowNodes& nodes_;
  RunRange run_;
  Vec2 along_;
  ShadowTriangle triangle_{};
  std::vector<ShadowPoint> points_;
};

// Nodes whose ground-shade is open, for the sixteen squares of four by four nodes.
void open_nodes(const Tile& tile, const TerrainClear& terrain, const RunRange& run,
                std::vector<int>& nodes) {
  for (int square = 0; square < kTile; ++square) {
    geom::Box3 box;
    std::array<int, kTile> members{};
    std::size_t count = 0;
    for (int k = 0; k < kTile; ++k) {
      const int n = (square / 4 * 4 + k / 4) * kTile + square % 4 * 4 + k % 4;
      const auto u = static_cast<std::size_t>(n);
      if (tile.inside[u] == 0) continue;
      box.add(tile.ref + Vec3{tile.x[u], tile.y[u], tile.z[u]});
      members[count++] = n;
    }
    if (count == 0 || terrain.clear(box, run)) continue;
    nodes.insert(nodes.end(), members.begin(), members.begin() + static_cast<long>(count));
  }
}

// By a sweep: darkens what it says is dark, collects what it leaves open.
void by_sweep(const Tile& tile, const GroundStatus& status, TileBeam& beam,
              std::vector<int>& open) {
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0) continue;
    const int i = tile.i0 + static_cast<int>(k) % kTile, j = tile.j0 + static_cast<int>(k) / kTile;
    const GroundShade shade = status.at(i, j);
    if (shade == GroundShade::lit) continue;
    if (shade == GroundShade::open) {
      open.push_back(static_cast<int>(k));
      continue;
    }
    spread(beam);
    beam.each[k] = 0.0F;
  }
}

// Does the whole tile face the sun by the bounds of its gradients?
bool all_face(const Tile& t, const SunRay& sun) {
  const auto cx = static_cast<float>(sun.run.x);
  const auto cy = static_cast<float>(sun.run.y);
  return std::max(t.gx0 * cx, t.gx1 * cx) + std::max(t.gy0 * cy, t.gy1 * cy) < 0.999F;
}

void turn_away(const Tile& tile, const SunRay& sun, TileBeam& beam) {
  spread(beam);
  const FirstTriangle triangle(sun.run);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    beam.each[k] = tile.inside[k] != 0 && triangle.faces(tile, k) ? beam.each[k] : 0.0F;
  }
  if (dark(beam)) make_dark(beam);
}

// By the land beyond the modelled ground.
void behind_hills(const Tile& tile, const SunRay& sun, const FarHorizon& far, TileBeam& beam) {
  const FarHorizon::Over over = far.over(tile.box, sun);
  if (over == FarHorizon::Over::clear) return;
  if (over == FarHorizon::Over::hidden) return make_dark(beam);
  spread(beam);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const Vec3 from = tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]};
    if (tile.inside[k] == 0 || far.hides(from, sun)) beam.each[k] = 0.0F;
  }
  if (dark(beam)) make_dark(beam);
}

// Nodes of the tile inside the shadow of the part's box.
void nodes_behind(const geom::Box3& box, const Tile& tile, const SunRay& sun,
                  std::vector<int>& nodes) {
  const RunRange run{sun.run, sun.run};
  const Vec2 along = unit(sun.run);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0) continue;
    geom::Box3 point;
    point.add(tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]});
    if (may_shade(box, point, run, along)) nodes.push_back(static_cast<int>(k));
  }
}

}  // namespace

FastBeam::FastBeam(const Model& model)
    : casters_(casters_of(model)),
      tree_(boxes_of(casters_)),
      terrain_(model.ground),
      sweep_(model.ground),
      grid_(model.ground.grid) {
  for (std::size_t k = 0; k < casters_.size(); ++k) {
    const Caster& c = casters_[k];
    heavy_.push_back(c.kind == CasterKind::opaque && c.normals.size() > kHeavyTriangles);
    all_.push_back(static_cast<int>(k));
  }
  rays_ = std::make_unique<RayBeam>(model, casters_, heavy_);
}

std::vector<GroundStatus> FastBeam::sweeps(const std::vector<Tile>& tiles, const geom::Grid& grid,
                                           std::span<const SunRay> suns) const {
  // A sweep costs about what rays for a twentieth of the nodes do.
  constexpr std::size_t kShare = 20;
  constexpr double kMostBytes = 2e9;
  std::vector<GroundStatus> result(suns.size());
  const double bytes = static_cast<double>(grid.size()) * static_cast<double>(suns.size());
  if (!(grid == grid_) || bytes > kMostBytes) return result;
  tbb::parallel_for(std::size_t{0}, suns.size(), [&](std::size_t s) {
    if (!suns[s].up) return;
    const RunRange run{suns[s].run, suns[s].run};
    std::size_t open = 0;
    for (const Tile& t : tiles) {
      if (!terrain_.clear(t.box, run) && ++open * kShare > tiles.size()) break;
    }
    if (open * kShare > tiles.size()) result[s] = sweep_.status(suns[s]);
  });
  return result;
}

std::vector<bool> FastBeam::bare_at(const sun::Date& date) const {
  std::vector<bool> bare;
  for (const Caster& c : casters_) bare.push_back(c.bare && sun::within(*c.bare, date));
  return bare;
}

void FastBeam::tile(const Tile& tile, const SunRay& sun, const sun::Date& date,
                    TileBeam& beam) const {
  this->tile(tile, sun, date, all_, {}, beam);
}

void FastBeam::tile(const Tile& tile, const SunRay& sun, const sun::Date& date,
                    std::span<const int> casters, Ground ground, TileBeam& beam) const {
  beam.uniform = true;
  beam.value = sun.up ? 1.0F : 0.0F;
  if (!sun.up) return;
  if (!all_face(tile, sun)) turn_away(tile, sun, beam);
  if (rays_->far().any()) behind_hills(tile, sun, rays_->far(), beam);
  if (beam.uniform && beam.value == 0.0F) return;

  std::vector<int> open;
  const RunRange run{sun.run, sun.run};
  if (!ground.clear && !terrain_.clear(tile.box, run)) {
    if (ground.status != nullptr && !ground.status->nodes.empty()) {
      by_sweep(tile, *ground.status, beam, open);
      if (dark(beam)) {
        make_dark(beam);
        return;
      }
    } else {
      open_nodes(tile, terrain_, run, open);
    }
  }

  const Vec2 along = unit(sun.run);
  ShadowNodes nodes;
  std::optional<PartOverTile> over;
  for (const int id : casters) {
    const Caster& c = casters_[static_cast<std::size_t>(id)];
    if (!may_shade(c.box, tile.box, run, along)) continue;
    if (heavy_[static_cast<std::size_t>(id)]) {
      nodes_behind(c.box, tile, sun, open);
      continue;
    }
    if (!over) {
      nodes = shadow_nodes(tile, sun);
      over.emplace(tile, sun, nodes);
    }
    over->apply(c, date, beam);
    if (beam.uniform && beam.value == 0.0F) return;
  }
  if (open.empty()) return;
  std::sort(open.begin(), open.end());
  open.erase(std::unique(open.begin(), open.end()), open.end());
  spread(beam);
  std::erase_if(open, [&](int k) { return beam.each[static_cast<std::size_t>(k)] <= 0.0F; });
  rays_->blocked(tile, sun, open, beam.each);
}

}  // namespace hummock::shade
