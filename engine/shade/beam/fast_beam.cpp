#include "engine/shade/beam/fast_beam.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <utility>

#include "engine/shade/beam/may_shade.h"

namespace hummock::shade {
namespace {

// Opaque parts of more faces than this, once what is flat or convex has been put together, go to
// rays: scanning them would cost more than the rays of the tiles they shade (measured;
// tests/bench/shade.cpp). Of kTooMany triangles nothing is put together.
constexpr std::size_t kHeavyFaces = 8192, kTooMany = 1 << 20;

// Without pieces: heavy.
Pieces light_pieces(const Caster& c) {
  const bool opaque = c.kind == CasterKind::opaque;
  if (opaque && c.normals.size() > kTooMany) return {};
  Pieces pieces = pieces_of(c);
  std::size_t faces = 0;
  for (const Piece& p : pieces.all) faces += p.kind == PieceKind::faces ? p.faces.size() : 1;
  if (opaque && faces > kHeavyFaces) return {};
  return pieces;
}

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

// What a sweep says of all nodes of a tile's square.
enum class Swept { lit, some_dark, other };
Swept over_tile(const Tile& tile, const GroundStatus& status) {
  const auto across = static_cast<std::size_t>(status.transposed ? tile.j0 : tile.i0);
  const auto up = static_cast<std::size_t>(status.transposed ? tile.i0 : tile.j0);
  const std::size_t rows = status.nodes.size() / status.stride;
  if (across + kTile > status.stride) return Swept::other;
  static_assert(static_cast<int>(GroundShade::lit) == 0 &&
                static_cast<int>(GroundShade::dark) == 1 &&
                static_cast<int>(GroundShade::open) == 2);
  std::uint64_t any = 0;
  for (std::size_t r = up; r < std::min<std::size_t>(rows, up + kTile); ++r) {
    std::array<std::uint64_t, kTile / 8> nodes{};
    std::memcpy(nodes.data(), &status.nodes[r * status.stride + across], sizeof nodes);
    any |= nodes[0] | nodes[1];
  }
  constexpr std::uint64_t kDark = 0x0101010101010101U;
  if (any == 0) return Swept::lit;
  return (any & kDark) != 0 ? Swept::some_dark : Swept::other;
}

// By a sweep: darkens what it says is dark, collects what it leaves open.
void by_sweep(const Tile& tile, const GroundStatus& status, TileBeam& beam,
              std::vector<int>& open) {
  // As the sweep's store lies: `up` numbers its rows.
  const int across = status.transposed ? tile.j0 : tile.i0;
  const int up = status.transposed ? tile.i0 : tile.j0;
  const int columns = std::min(kTile, static_cast<int>(status.stride) - across);
  const int rows = std::min(kTile, static_cast<int>(status.nodes.size() / status.stride) - up);
  for (int r = 0; r < rows; ++r) {
    const GroundShade* row = &status.nodes[static_cast<std::size_t>(up + r) * status.stride +
                                           static_cast<std::size_t>(across)];
    for (int c = 0; c < columns; ++c) {
      if (row[c] == GroundShade::lit) continue;
      const int k = status.transposed ? c * kTile + r : r * kTile + c;
      if (tile.inside[static_cast<std::size_t>(k)] == 0) continue;
      if (row[c] == GroundShade::open) {
        open.push_back(k);
        continue;
      }
      spread(beam);
      beam.each[static_cast<std::size_t>(k)] = 0.0F;
    }
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
  all_dark(beam);
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
  all_dark(beam);
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
    if (MayShade(point, run, along)(box)) nodes.push_back(static_cast<int>(k));
  }
}

// Asks for the heights of a tile and of the one that lies behind it in the store, mostly the next:
// they are wanted once the ground has been asked, and a yard's tiles fill no cache.
void fetch_nodes(const Tile& tile) {
  constexpr std::ptrdiff_t kLine = 64;
  const auto* start = static_cast<const char*>(static_cast<const void*>(&tile));
  const auto* end = static_cast<const char*>(static_cast<const void*>(&tile.x[kTile]));
  for (const char* at = start; at < end; at += kLine) {
    __builtin_prefetch(at);
    __builtin_prefetch(at + sizeof(Tile));
  }
}

}  // namespace

FastBeam::FastBeam(const Model& model, std::shared_ptr<const FarHorizon> far)
    : casters_(casters_of(model)),
      tree_(boxes_of(casters_)),
      terrain_(model.ground),
      sweep_(model.ground),
      grid_(model.ground.grid) {
  pieces_.resize(casters_.size());
  tbb::parallel_for(std::size_t{0}, casters_.size(),
                    [&](std::size_t k) { pieces_[k] = light_pieces(casters_[k]); });
  for (std::size_t k = 0; k < casters_.size(); ++k) {
    heavy_.push_back(casters_[k].kind == CasterKind::opaque && pieces_[k].all.empty());
    all_.push_back(static_cast<int>(k));
  }
  rays_ = std::make_unique<RayBeam>(model, casters_, heavy_, std::move(far));
}

std::vector<GroundStatus> FastBeam::sweeps(const std::vector<Tile>& tiles, const geom::Grid& grid,
                                           std::span<const SunRay> suns) const {
  // A sweep costs about what rays for an eightieth of the tiles do (measured).
  constexpr std::size_t kShare = 80;
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
  thread_local NearShadows shadows;
  lay_out(tile.box, sun, date, casters, shadows);
  this->tile(tile, shadows, ground, beam);
}

void FastBeam::take_ground(const Tile& tile, const SunRay& sun, const Ground& ground,
                           TileBeam& beam, std::vector<int>& open) const {
  if (!all_face(tile, sun)) turn_away(tile, sun, beam);
  if (rays_->far().any()) behind_hills(tile, sun, rays_->far(), beam);
  if (ground.clear || (beam.uniform && beam.value == 0.0F)) return;
  const bool swept = ground.status != nullptr && !ground.status->nodes.empty();
  const RunRange run{sun.run, sun.run};
  const Swept all = swept ? over_tile(tile, *ground.status) : Swept::other;
  // Both are certain: where the sweep says dark of a node of its own, it is not clear.
  const bool not_clear = all == Swept::some_dark && tile.even;
  if (all == Swept::lit || (!not_clear && terrain_.clear(tile.box, run))) return;
  if (!swept) return open_nodes(tile, terrain_, run, open);
  by_sweep(tile, *ground.status, beam, open);
  all_dark(beam);
}

void FastBeam::tile(const Tile& tile, const NearShadows& shadows, Ground ground,
                    TileBeam& beam) const {
  const SunRay& sun = shadows.sun();
  beam.uniform = true;
  beam.value = sun.up ? 1.0F : 0.0F;
  if (!sun.up) return;
  fetch_nodes(tile);
  thread_local std::vector<int> open;
  open.clear();
  take_ground(tile, sun, ground, beam, open);
  if (beam.uniform && beam.value == 0.0F) return;
  for (const int id : shadows.heavy())
    nodes_behind(casters_[static_cast<std::size_t>(id)].box, tile, sun, open);
  if (!shadows.darken(tile, beam) || open.empty()) return;
  std::sort(open.begin(), open.end());
  open.erase(std::unique(open.begin(), open.end()), open.end());
  spread(beam);
  std::erase_if(open, [&](int k) { return beam.each[static_cast<std::size_t>(k)] <= 0.0F; });
  rays_->blocked(tile, sun, open, beam.each);
}

}  // namespace hummock::shade
