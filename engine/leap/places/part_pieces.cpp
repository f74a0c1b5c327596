#include "engine/leap/places/part_pieces.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "geometry/flat_index.h"

namespace hummock::leap {

using geom::Box3;
using geom::Vec2;
using geom::Vec3;

namespace {

struct PieceKey {
  std::uint32_t patch;
  int axis, i, j, k;
  bool operator==(const PieceKey&) const = default;
};
struct PieceHash {
  std::size_t operator()(const PieceKey& key) const {
    std::uint64_t h = key.patch;
    for (const int v : {key.axis, key.i, key.j, key.k}) {
      h = (h ^ static_cast<std::uint64_t>(static_cast<std::uint32_t>(v))) * 0x9E3779B97F4A7C15ULL;
      h ^= h >> 29;
    }
    return static_cast<std::size_t>(h);
  }
};

// Pieces by their keys, in the order in which they first come. Of one key the first piece stays,
// and its cell holds all of them: so the pieces of a row may be merged first by stretches and then,
// in the stretches' order, with each other (the least and greatest of numbers do not hang on how
// they are bracketed).
class MergedPieces {
 public:
  // `make` gives the piece itself, where its key comes for the first time.
  template <class Make>
  void lay(const PieceKey& key, const Box3& cell, const Make& make) {
    const auto [number, fresh] = lookup_.number(key);
    if (fresh)
      laid_.push_back(make());
    else
      laid_[number].spot.cell.add(cell);
  }
  // Of a fence either may be millions: what is taken is freed at once.
  void take(MergedPieces&& next) {
    if (laid_.empty()) {
      *this = std::move(next);
      return;
    }
    for (std::size_t k = 0; !next.laid_.empty(); ++k, next.laid_.pop_front()) {
      const LaidPiece& piece = next.laid_.front();
      lay(next.lookup_.key(k), piece.spot.cell, [&] { return piece; });
    }
  }
  std::deque<LaidPiece> all() { return std::move(laid_); }

 private:
  geom::FlatIndex<PieceKey, PieceHash> lookup_;
  std::deque<LaidPiece> laid_;
};

// Lays the faces, the rims and the perches of a part: items in this order.
class PieceLattice {
 public:
  PieceLattice(const Model& model, const Part& part, const PartFaces& faces,
               const PlaceRules& rules, Vec3 corner)
      : model_(model),
        part_(part),
        faces_(faces),
        normal_(faces.shape->normal),
        rules_(rules),
        corner_(corner) {}

  static std::size_t items(const PartFaces& faces) {
    return faces.footing.size() + faces.rims.size() + faces.perches.size();
  }

  MergedPieces run(std::size_t first, std::size_t end) {
    for (std::size_t item = first; item < end; ++item) {
      const std::size_t rim = item - faces_.footing.size();
      if (item < faces_.footing.size()) {
        if (faces_.footing[item] != Footing::none) lay_face(item);
      } else if (rim < faces_.rims.size()) {
        lay_rim(faces_.rims[rim]);
      } else {
        lay_perch(rim - faces_.rims.size());
      }
    }
    return std::move(laid_);
  }

 private:
  std::array<Vec3, 3> corners(std::size_t t) const { return corners_of(part_, t); }

  int cell(double v, double from) const {
    return static_cast<int>(std::floor((v - from) / rules_.resolution));
  }

  void lay(const PieceKey& key, const SurfacePiece& spot, Vec3 probe,
           const std::array<Vec3, 4>& corners, Vec3 normal) {
    laid_.lay(key, spot.cell, [&] { return LaidPiece{spot, probe, corners, normal, key.patch}; });
  }

  // Cuts the triangle on a square lattice in the plane its normal is nearest to.
  void lay_face(std::size_t t) {
    const auto c = corners(t);
    const Vec3 n = normal_[t];
    const double ax = std::abs(n.x);
    const double ay = std::abs(n.y);
    const double az = std::abs(n.z);
    const int axis = az >= ax && az >= ay ? 2 : ax >= ay ? 0 : 1;
    const auto u = [axis](Vec3 v) { return axis == 0 ? v.y : v.x; };
    const auto v = [axis](Vec3 p) { return axis == 2 ? p.y : p.z; };
    Box3 box;
    for (const Vec3& p : c) box.add(p);
    const double u0 = u(corner_);
    const double v0 = v(corner_);
    const int lo = cell(u(box.lo), u0);
    const int hi = cell(u(box.hi), u0);
    // Most triangles of a large mesh lie within one square: no cut below would change them.
    const int row = cell(v(box.lo), v0);
    if (lo == hi && row == cell(v(box.hi), v0) && whole_in(c, u, u0 + lo * rules_.resolution) &&
        whole_in(c, v, v0 + row * rules_.resolution))
      return lay_piece(t, axis, lo, row, c);
    rings_[0].assign(c.begin(), c.end());
    for (int i = lo; i <= hi; ++i) {
      const double a = u0 + i * rules_.resolution;
      const std::vector<Vec3>& strip =
          cut(cut(rings_[0], u, a, true, rings_[1]), u, a + rules_.resolution, false, rings_[2]);
      if (strip.size() < 3) continue;
      Box3 of_strip;
      for (const Vec3& p : strip) of_strip.add(p);
      for (int j = cell(v(of_strip.lo), v0); j <= cell(v(of_strip.hi), v0); ++j) {
        const double b = v0 + j * rules_.resolution;
        lay_piece(
            t, axis, i, j,
            cut(cut(strip, v, b, true, rings_[3]), v, b + rules_.resolution, false, rings_[4]));
      }
    }
  }

  template <class Coordinate>
  bool whole_in(const std::array<Vec3, 3>& piece, Coordinate c, double from) const {
    const double to = from + rules_.resolution;
    return std::all_of(piece.begin(), piece.end(),
                       [&](const Vec3& p) { return c(p) - from >= 0.0 && to - c(p) >= 0.0; });
  }

  // `room`: for the answer, where it is not the whole piece.
  template <class Coordinate>
  static const std::vector<Vec3>& cut(const std::vector<Vec3>& piece, Coordinate c, double at,
                                      bool above, std::vector<Vec3>& room) {
    const auto over = [&](const Vec3& p) { return above ? c(p) - at : at - c(p); };
    if (std::all_of(piece.begin(), piece.end(), [&](const Vec3& p) { return over(p) >= 0.0; }))
      return piece;
    room.clear();
    const std::size_t n = piece.size();
    for (std::size_t k = 0; k < n; ++k) {
      const Vec3& p = piece[k];
      const Vec3& q = piece[k + 1 < n ? k + 1 : 0];
      const double dp = over(p);
      const double dq = over(q);
      if (dp >= 0.0) room.push_back(p);
      if ((dp > 0.0 && dq < 0.0) || (dp < 0.0 && dq > 0.0))
        room.push_back(lerp(p, q, dp / (dp - dq)));
    }
    return room;
  }

  void lay_piece(std::size_t t, int axis, int i, int j, std::span<const Vec3> piece) {
    if (piece.size() < 3) return;
    Box3 cell;
    Vec3 sum;
    for (const Vec3& p : piece) {
      cell.add(p);
      sum = sum + p;
    }
    const Vec3 size = cell.hi - cell.lo;
    if (dot(size, size) < 1e-10) return;  // a sliver of the lattice's rounding
    const Vec3 middle = sum * (1.0 / static_cast<double>(piece.size()));
    const bool cling = faces_.footing[t] == Footing::cling;
    const double third = axis == 0   ? middle.x - corner_.x
                         : axis == 1 ? middle.y - corner_.y
                                     : middle.z - corner_.z;
    const int layer = static_cast<int>(std::floor(third / rules_.resolution));
    const int facing_up = cling ? 8 : 0;
    const PieceKey key{faces_.patch[t], axis + facing_up, i, j, layer};
    laid_.lay(key, cell, [&] {
      LaidPiece laid;
      laid.spot.cell = cell;
      laid.spot.cling = cling;
      laid.spot.at = laid.probe = middle + normal_[t] * kLift;
      for (std::size_t k = 0; k < laid.corners.size(); ++k) {
        const Vec3 corner = piece[k * piece.size() / laid.corners.size()];
        laid.corners[k] = lerp(middle, corner, 0.9) + normal_[t] * kLift;
      }
      laid.normal = normal_[t];
      laid.patch = key.patch;
      return laid;
    });
  }

  void lay_rim(const TriangleSide& rim) {
    const auto [t, side] = rim;
    const auto c = corners(t);
    const Vec3 a = c[side];
    const Vec3 b = c[(side + 1) % 3];
    const Vec3 inner = (c[0] + c[1] + c[2]) * (1.0 / 3.0);
    const int n = std::max(1, static_cast<int>(std::ceil(distance(a, b) / rules_.resolution)));
    for (int k = 0; k < n; ++k) {
      const Vec3 p = lerp(a, b, static_cast<double>(k) / n);
      const Vec3 q = lerp(a, b, (k + 1.0) / n);
      SurfacePiece spot;
      spot.cell.add(p);
      spot.cell.add(q);
      const Vec3 middle = (p + q) * 0.5;
      spot.at = middle + normal_[t] * kLift;
      spot.hook = true;
      spot.cling = faces_.footing[t] == Footing::cling;
      const Vec3 inwards = unit(inner - middle);
      const Vec3 d = middle - corner_;
      const Vec3 in = inwards * std::min(0.01, 0.5 * distance(inner, middle));
      const Vec3 lift = normal_[t] * kLift;
      lay({faces_.patch[t], 4 + (spot.cling ? 8 : 0), cell(d.x, 0.0), cell(d.y, 0.0),
           cell(d.z, 0.0)},
          spot, spot.at + in,
          {lerp(p, q, 0.05) + in + lift, lerp(p, q, 0.95) + in + lift, lerp(p, q, 0.25) + in + lift,
           lerp(p, q, 0.75) + in + lift},
          normal_[t]);
    }
  }

  // No sheet goes on above the edge: asked level across it, low and at half the crouch.
  bool free_above(Vec3 p, Vec2 across) const {
    const Vec3 aside = at_height(across * 0.02, 0.0);
    for (const double up : {0.01, 0.5 * rules_.body.crouch}) {
      const Vec3 over = p + Vec3{0.0, 0.0, up};
      if (!model_.body_scene->segment_free(over - aside, over + aside)) return false;
    }
    return true;
  }

  void lay_perch(std::size_t number) {
    const TriangleSide& perch = faces_.perches[number];
    const auto c = corners(perch.triangle);
    const Vec3 a = c[perch.side];
    const Vec3 b = c[(perch.side + 1) % 3];
    const Vec2 across = geom::left_of(geom::unit(xy(b) - xy(a)));
    const Vec3 lift{0.0, 0.0, kLift};
    const int n = std::max(1, static_cast<int>(std::ceil(distance(a, b) / rules_.resolution)));
    for (int k = 0; k < n; ++k) {
      const Vec3 p = lerp(a, b, static_cast<double>(k) / n);
      const Vec3 q = lerp(a, b, (k + 1.0) / n);
      const Vec3 middle = (p + q) * 0.5;
      if (!free_above(middle, across)) continue;
      SurfacePiece spot;
      spot.cell.add(p);
      spot.cell.add(q);
      spot.at = middle + lift;
      spot.hook = true;
      const Vec3 d = middle - corner_;
      lay({faces_.patch[faces_.footing.size() + number], 5, cell(d.x, 0.0), cell(d.y, 0.0),
           cell(d.z, 0.0)},
          spot, spot.at,
          {lerp(p, q, 0.05) + lift, lerp(p, q, 0.95) + lift, lerp(p, q, 0.25) + lift,
           lerp(p, q, 0.75) + lift},
          {0.0, 0.0, 1.0});
    }
  }

  const Model& model_;
  const Part& part_;
  const PartFaces& faces_;
  const std::vector<Vec3>& normal_;
  const PlaceRules& rules_;
  Vec3 corner_;
  MergedPieces laid_;
  std::array<std::vector<Vec3>, 5> rings_;  // room to cut in
};

}  // namespace

// Tile by tile on all cores, so many at a time that what waits to be merged stays small.
std::deque<LaidPiece> lay_pieces(const Model& model, const Part& part, const PartFaces& faces,
                                 const PlaceRules& rules, std::size_t tile) {
  constexpr std::size_t kTilesAtOnce = 16;  // numeric
  const Vec3 corner = geom::bounds(part.mesh).lo;
  const std::size_t items = PieceLattice::items(faces);
  const auto laid = [&](std::size_t first, std::size_t end) {
    return PieceLattice(model, part, faces, rules, corner).run(first, end);
  };
  if (items <= tile) return laid(0, items).all();
  MergedPieces all;
  for (std::size_t from = 0; from < items; from += kTilesAtOnce * tile) {
    std::array<MergedPieces, kTilesAtOnce> tiles;
    tbb::parallel_for(std::size_t{0}, kTilesAtOnce, [&](std::size_t k) {
      const std::size_t first = from + k * tile;
      if (first < items) tiles[k] = laid(first, std::min(items, first + tile));
    });
    for (MergedPieces& next : tiles) all.take(std::move(next));
  }
  return all.all();
}

}  // namespace hummock::leap
