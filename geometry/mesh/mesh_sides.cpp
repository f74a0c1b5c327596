#include "geometry/mesh/mesh_sides.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "geometry/flat_index.h"

namespace hummock::geom {

namespace {

constexpr std::size_t kCornersOfTile = 4096;  // numeric: no answer hangs on it

struct PlaceKey {
  std::int64_t x, y, z;
  bool operator==(const PlaceKey& o) const { return x == o.x && y == o.y && z == o.z; }
};

struct PlaceHash {
  std::size_t operator()(const PlaceKey& key) const {
    std::uint64_t h = 0x9E3779B97F4A7C15ULL;
    for (const std::int64_t v : {key.x, key.y, key.z})
      h = (h ^ static_cast<std::uint64_t>(v)) * 0xBF58476D1CE4E5B9ULL;
    return static_cast<std::size_t>(h ^ (h >> 31));
  }
};

std::vector<std::uint32_t> places_of(const std::vector<Vec3>& corners, double same) {
  FlatIndex<PlaceKey, PlaceHash> seen;
  seen.reserve(corners.size());
  std::vector<std::uint32_t> place;
  place.reserve(corners.size());
  for (const Vec3& v : corners)
    place.push_back(
        seen.number({std::llround(v.x / same), std::llround(v.y / same), std::llround(v.z / same)})
            .first);
  return place;
}

struct Side {
  std::uint32_t upper;   // the greater of its two places
  std::uint32_t number;  // 3 × triangle + k
};

// Visits every side: the lesser of its places, and the side.
template <class Visit>
void each_side(const Mesh& mesh, const std::vector<std::uint32_t>& place, const Visit& visit) {
  std::uint32_t number = 0;
  for (const Triangle& t : mesh.triangles) {
    const std::uint32_t p[3] = {place[t[0]], place[t[1]], place[t[2]]};
    for (int k = 0; k < 3; ++k, ++number) {
      const auto [lower, upper] = std::minmax(p[k], p[(k + 1) % 3]);
      visit(lower, Side{upper, number});
    }
  }
}

}  // namespace

// Laid out by their lesser place, which has few; then those of each are sorted.
MeshSides mesh_sides(const Mesh& mesh, double same) {
  if (mesh.triangles.size() > std::numeric_limits<std::uint32_t>::max() / 3)
    throw std::length_error("a mesh of more sides than there are numbers for");
  MeshSides out;
  out.place = places_of(mesh.vertices, same);
  const std::size_t places = out.place.size();
  std::vector<std::uint32_t> next(places + 1, 0);  // the places are no more than the corners
  each_side(mesh, out.place, [&](std::uint32_t lower, const Side& /*s*/) { ++next[lower + 1]; });
  std::partial_sum(next.begin(), next.end(), next.begin());
  const std::vector<std::uint32_t> from = next;
  std::vector<Side> sides(3 * mesh.triangles.size());
  each_side(mesh, out.place, [&](std::uint32_t lower, const Side& s) { sides[next[lower]++] = s; });
  tbb::parallel_for(
      std::size_t{0}, (places + kCornersOfTile - 1) / kCornersOfTile, [&](std::size_t tile) {
        const std::size_t end = std::min(places, (tile + 1) * kCornersOfTile);
        for (std::size_t p = tile * kCornersOfTile; p < end; ++p)
          std::sort(sides.data() + from[p], sides.data() + from[p + 1],
                    [](const Side& a, const Side& b) {
                      return a.upper != b.upper ? a.upper < b.upper : a.number < b.number;
                    });
      });
  out.sides.reserve(sides.size());
  for (std::size_t p = 0; p < places; ++p) {
    for (std::uint32_t k = from[p]; k < from[p + 1]; ++k) {
      if (k == from[p] || sides[k].upper != sides[k - 1].upper) out.first.push_back(k);
      out.sides.push_back(sides[k].number);
    }
  }
  out.first.push_back(static_cast<std::uint32_t>(sides.size()));
  return out;
}

}  // namespace hummock::geom
