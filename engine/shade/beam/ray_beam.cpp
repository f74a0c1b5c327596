#include "engine/shade/beam/ray_beam.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace hummock::shade {
namespace {

constexpr std::int32_t kGround = 1 << 28;
// Hits of one part closer than this along the ray are one crossing: a ray through the edge of two
// triangles meets both.
constexpr double kSameCrossing = 1e-4;  // m

geom::RayPacket16 packet(const Tile& tile, const SunRay& sun, std::span<const int> nodes) {
  geom::RayPacket16 p{};
  p.valid = nodes.size() >= 16 ? 0xFFFFU : (1U << nodes.size()) - 1U;
  for (std::size_t r = 0; r < 16; ++r) {
    const auto k = static_cast<std::size_t>(nodes[std::min(r, nodes.size() - 1)]);
    p.ox[r] = static_cast<float>(tile.ref.x + tile.x[k]);
    p.oy[r] = static_cast<float>(tile.ref.y + tile.y[k]);
    p.oz[r] = static_cast<float>(tile.ref.z + tile.z[k]);
    p.dx[r] = static_cast<float>(sun.towards.x);
    p.dy[r] = static_cast<float>(sun.towards.y);
    p.dz[r] = static_cast<float>(sun.towards.z);
    p.near[r] = 0.0F;
    p.far[r] = 1e30F;
  }
  return p;
}

void darken(const geom::RayScene& scene, const Tile& tile, const SunRay& sun,
            std::span<const int> nodes, std::array<float, kTileNodes>& beam) {
  for (std::size_t first = 0; first < nodes.size(); first += 16) {
    const auto some = nodes.subspan(first, std::min<std::size_t>(16, nodes.size() - first));
    const std::uint32_t dark = scene.occluded(packet(tile, sun, some));
    for (std::size_t r = 0; r < some.size(); ++r) {
      if ((dark >> r & 1U) != 0) beam[static_cast<std::size_t>(some[r])] = 0.0F;
    }
  }
}

// The nodes still lit, in squares of four by four, so that a packet's rays lie close together.
std::vector<int> lit_nodes(const std::array<float, kTileNodes>& beam) {
  std::vector<int> nodes;
  for (int square = 0; square < kTile; ++square) {
    for (int k = 0; k < kTile; ++k) {
      const int n = (square / 4 * 4 + k / 4) * kTile + square % 4 * 4 + k % 4;
      if (beam[static_cast<std::size_t>(n)] > 0.0F) nodes.push_back(n);
    }
  }
  return nodes;
}

// Length of the line inside a volume: ways out less ways in, a way in behind the start counting
// from the start.
double length_inside(const std::vector<const geom::Hit*>& hits, Vec3 towards) {
  double sum = 0.0;
  double last_in = -1.0, last_out = -1.0;
  for (const geom::Hit* h : hits) {
    const bool out = dot(h->normal, towards) > 0.0;
    double& last = out ? last_out : last_in;
    if (last >= 0.0 && h->t - last < kSameCrossing) continue;
    last = h->t;
    sum += out ? h->t : -h->t;
  }
  return std::max(0.0, sum);
}

}  // namespace

RayBeam::RayBeam(const Model& model, const std::vector<Caster>& casters,
                 const std::vector<bool>& heavy, std::shared_ptr<const FarHorizon> far)
    : casters_(&casters),
      model_(&model),
      is_heavy_(heavy),
      far_(far ? std::move(far) : std::make_shared<const FarHorizon>(model)) {
  for (std::size_t k = 0; k < casters.size(); ++k) {
    if (casters[k].kind == CasterKind::opaque) continue;
    translucent_any_ = true;
    if (casters[k].round) {
      round_.push_back(&casters[k]);
      continue;
    }
    translucent_.add_mesh(*casters[k].mesh, static_cast<std::int32_t>(k));
  }
  translucent_.commit();
}

void RayBeam::build(geom::RayScene& scene, bool only_heavy) const {
  scene.add_ground(model_->ground, kGround);
  for (std::size_t k = 0; k < casters_->size(); ++k) {
    const Caster& c = (*casters_)[k];
    if (c.kind != CasterKind::opaque || (only_heavy && !is_heavy_[k])) continue;
    scene.add_mesh(*c.mesh, static_cast<std::int32_t>(k));
  }
  scene.commit();
}

const geom::RayScene& RayBeam::opaque() const {
  std::call_once(opaque_.once, [&] { build(opaque_.scene, false); });
  return opaque_.scene;
}

const geom::RayScene& RayBeam::heavy() const {
  std::call_once(heavy_.once, [&] { build(heavy_.scene, true); });
  return heavy_.scene;
}

double RayBeam::through_round(Vec3 from, const SunRay& sun, const sun::Date& date) const {
  double depth = 0.0;
  for (const Caster* c : round_) {
    const double length = c->round->length_ahead(from, sun.towards);
    if (length > 0.0) depth += extinction(*c, date) * length;
  }
  return std::exp(-depth);
}

double RayBeam::through_translucent(Vec3 from, const SunRay& sun, const sun::Date& date) const {
  const std::vector<geom::Hit> hits = translucent_.all_hits({from, sun.towards});
  double share = through_round(from, sun, date);
  std::vector<const geom::Hit*> same;
  std::vector<bool> done(hits.size(), false);
  for (std::size_t a = 0; a < hits.size() && share > 0.0; ++a) {
    if (done[a]) continue;
    const Caster& c = (*casters_)[static_cast<std::size_t>(hits[a].id)];
    same.clear();
    for (std::size_t b = a; b < hits.size(); ++b) {
      if (hits[b].id != hits[a].id) continue;
      same.push_back(&hits[b]);
      done[b] = true;
    }
    if (c.kind == CasterKind::volume) {
      share *= std::exp(-extinction(c, date) * length_inside(same, sun.towards));
      continue;
    }
    double last = -1.0;
    for (const geom::Hit* h : same) {
      if (last >= 0.0 && h->t - last < kSameCrossing) continue;
      last = h->t;
      share *= sheet_transmittance(c, c.normals[h->triangle], sun.towards);
    }
  }
  return share;
}

double RayBeam::at(Vec3 from, const SunRay& sun, const sun::Date& date) const {
  if (!sun.up || far_->hides(from, sun) || opaque().occluded({from, sun.towards})) return 0.0;
  return translucent_any_ ? through_translucent(from, sun, date) : 1.0;
}

void RayBeam::tile(const Tile& tile, const SunRay& sun, const sun::Date& date,
                   std::array<float, kTileNodes>& beam) const {
  beam.fill(0.0F);
  if (!sun.up) return;
  const FirstTriangle triangle(sun.run);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0 || !triangle.faces(tile, k)) continue;
    const Vec3 from = tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]};
    if (!far_->hides(from, sun)) beam[k] = 1.0F;
  }
  darken(opaque(), tile, sun, lit_nodes(beam), beam);
  if (!translucent_any_) return;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (beam[k] <= 0.0F) continue;
    const Vec3 from = tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]};
    beam[k] = static_cast<float>(through_translucent(from, sun, date));
  }
}

void RayBeam::blocked(const Tile& tile, const SunRay& sun, std::span<const int> nodes,
                      std::array<float, kTileNodes>& beam) const {
  darken(heavy(), tile, sun, nodes, beam);
}

}  // namespace hummock::shade
