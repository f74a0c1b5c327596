#include "geometry/mesh/mesh.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <tuple>
#include <utility>

#include "geometry/flat_index.h"

namespace hummock::geom {

Box3 bounds(const Mesh& mesh) {
  Box3 box;
  for (const Vec3& v : mesh.vertices) box.add(v);
  return box;
}

double surface_area(const Mesh& mesh) {
  double sum = 0.0;
  for (const auto& [a, b, c] : mesh.triangles) {
    sum += length(cross(mesh.vertices[b] - mesh.vertices[a], mesh.vertices[c] - mesh.vertices[a]));
  }
  return 0.5 * sum;
}

double signed_volume(const Mesh& mesh) {
  if (mesh.empty()) return 0.0;
  // Tetrahedra from a corner of the mesh, not from the origin: less cancellation far away.
  const Vec3 o = mesh.vertices[mesh.triangles.front()[0]];
  double sum = 0.0;
  for (const auto& [a, b, c] : mesh.triangles) {
    sum += dot(mesh.vertices[a] - o, cross(mesh.vertices[b] - o, mesh.vertices[c] - o));
  }
  return sum / 6.0;
}

namespace {

// An edge from its lesser corner: the greater one, +1 run in rising order, −1 in falling.
struct HalfEdge {
  std::uint32_t to;
  std::int32_t run;
};

template <class Visit>
void each_edge(const Mesh& mesh, const Visit& visit) {
  for (const Triangle& t : mesh.triangles)
    for (const auto& [a, b] : {std::pair{t[0], t[1]}, {t[1], t[2]}, {t[2], t[0]}})
      visit(std::min(a, b), HalfEdge{std::max(a, b), a < b ? 1 : -1});
}

// How many of one corner's edges are not cancelled; sorts them.
std::size_t unbalanced(HalfEdge* begin, HalfEdge* end) {
  std::sort(begin, end, [](const HalfEdge& a, const HalfEdge& b) { return a.to < b.to; });
  std::size_t open = 0;
  for (const HalfEdge* e = begin; e != end;) {
    int sum = 0;
    for (const std::uint32_t to = e->to; e != end && e->to == to; ++e) sum += e->run;
    open += static_cast<std::size_t>(std::abs(sum));
  }
  return open;
}

}  // namespace

// A closed mesh cancels everywhere. Edges are laid out by their lesser corner, which has few.
std::size_t open_edges(const Mesh& mesh) {
  std::uint32_t corners = 0;
  each_edge(mesh, [&](std::uint32_t /*from*/, const HalfEdge& e) {
    corners = std::max(corners, e.to + 1);
  });
  std::vector<std::size_t> first(static_cast<std::size_t>(corners) + 1, 0);
  each_edge(mesh, [&](std::uint32_t from, const HalfEdge& /*e*/) { ++first[from + 1]; });
  std::partial_sum(first.begin(), first.end(), first.begin());
  std::vector<HalfEdge> edges(3 * mesh.triangles.size());
  std::vector<std::size_t> next = first;
  each_edge(mesh, [&](std::uint32_t from, const HalfEdge& e) { edges[next[from]++] = e; });
  std::size_t open = 0;
  for (std::size_t v = 0; v + 1 < first.size(); ++v)
    open += unbalanced(edges.data() + first[v], edges.data() + first[v + 1]);
  return open;
}

namespace {

using CellKey = std::tuple<long long, long long, long long>;

CellKey cell_of(Vec3 p, double size) {
  return {static_cast<long long>(std::floor(p.x / size)),
          static_cast<long long>(std::floor(p.y / size)),
          static_cast<long long>(std::floor(p.z / size))};
}

std::size_t hash_of_three(std::array<std::uint64_t, 3> numbers) {
  std::size_t h = 0;
  for (const std::uint64_t n : numbers)
    h = (h ^ static_cast<std::size_t>(n)) * 0x9E3779B97F4A7C15U;  // 2^64 over the golden ratio
  return h ^ (h >> 32U);
}

std::size_t hash_of(const CellKey& key) {
  const auto& [x, y, z] = key;
  return hash_of_three({static_cast<std::uint64_t>(x), static_cast<std::uint64_t>(y),
                        static_cast<std::uint64_t>(z)});
}

bool before(const Vec3& a, const Vec3& b) {
  return std::tie(a.x, a.y, a.z) < std::tie(b.x, b.y, b.z);
}

// Kept vertices by cells several tolerances wide, so that most places look into one cell alone.
// They hang in chains, by the hash of their cell.
class KeptVertices {
 public:
  // `most`: no more are kept.
  KeptVertices(double tolerance, std::size_t most, std::vector<Vec3>& kept)
      : tolerance_(tolerance), kept_(kept), chains_(std::bit_ceil(most + 1), kEnd) {}

  // Of those within the tolerance the one in the first of the 27 cells about p that are one
  // tolerance wide, x fastest, and there the oldest; kept itself where there is none.
  std::uint32_t find_or_keep(Vec3 p) {
    const CellKey small = cell_of(p, tolerance_);
    const std::array<Span, 3> span{span_of(p.x), span_of(p.y), span_of(p.z)};
    std::uint32_t found = kEnd;
    int place = 27;
    for (long long z = span[2].from; z <= span[2].to; ++z)
      for (long long y = span[1].from; y <= span[1].to; ++y)
        for (long long x = span[0].from; x <= span[0].to; ++x)
          look({x, y, z}, p, small, found, place);
    if (found != kEnd) return found;
    found = static_cast<std::uint32_t>(kept_.size());
    const CellKey own{span[0].own, span[1].own, span[2].own};
    kept_.push_back(p);
    links_.push_back({own, std::exchange(chain(own), found)});
    return found;
  }

 private:
  static constexpr double kWide = 8.0;  // tolerances; numeric, a setting
  static constexpr std::uint32_t kEnd = UINT32_MAX;

  // The newest in the chain of a cell, and of others of like hash.
  std::uint32_t& chain(const CellKey& cell) {
    return chains_[hash_of(cell) & (chains_.size() - 1)];
  }

  struct Span {
    long long own, from, to;
  };
  // Of cells in which something within the tolerance may lie.
  Span span_of(double v) const {
    constexpr double kNear = 1.01 / kWide;  // of a cell: a little more than the tolerance
    const double at = v / (kWide * tolerance_), whole = std::floor(at);
    const auto own = static_cast<long long>(whole);
    return {own, at - whole < kNear ? own - 1 : own, at - whole > 1.0 - kNear ? own + 1 : own};
  }

  void look(const CellKey& in, Vec3 p, const CellKey& about, std::uint32_t& found, int& place) {
    for (std::uint32_t candidate = chain(in); candidate != kEnd;
         candidate = links_[candidate].next) {
      if (links_[candidate].cell != in || !(distance(kept_[candidate], p) <= tolerance_)) continue;
      const auto [x, y, z] = cell_of(kept_[candidate], tolerance_);
      const auto& [cx, cy, cz] = about;
      const int at = static_cast<int>((x - cx + 1) + 3 * (y - cy + 1) + 9 * (z - cz + 1));
      if (std::max({std::abs(x - cx), std::abs(y - cy), std::abs(z - cz)}) > 1) continue;
      if (at > place || (at == place && candidate >= found)) continue;
      found = candidate;
      place = at;
    }
  }

  double tolerance_;
  std::vector<Vec3>& kept_;
  struct Link {
    CellKey cell;
    std::uint32_t next;
  };
  std::vector<Link> links_;  // by kept vertex
  std::vector<std::uint32_t> chains_;
};

// Bit by bit, but for the sign of zeros.
struct PointKey {
  std::uint64_t x, y, z;
  bool operator==(const PointKey& o) const { return x == o.x && y == o.y && z == o.z; }
};
struct PointHash {
  std::size_t operator()(const PointKey& key) const { return hash_of_three({key.x, key.y, key.z}); }
};

// The places of the vertices, as the first vertex of each says them, and each vertex' place. A file
// of triangles says every place six times: what comes after is asked of the places alone.
struct Places {
  std::vector<Vec3> at;
  std::vector<std::uint32_t> of_vertex;
};

Places distinct_places(const std::vector<Vec3>& vertices) {
  Places out;
  out.of_vertex.reserve(vertices.size());
  FlatIndex<PointKey, PointHash> seen;
  for (const Vec3& v : vertices) {
    const auto bits = [](double c) { return std::bit_cast<std::uint64_t>(c + 0.0); };
    const auto [number, fresh] = seen.number({bits(v.x), bits(v.y), bits(v.z)});
    if (fresh) out.at.push_back(v);
    out.of_vertex.push_back(number);
  }
  return out;
}

// What the sorting moves: side by side in memory.
struct Numbered {
  Vec3 at;
  std::uint32_t place;
};

std::vector<Numbered> sorted(const std::vector<Vec3>& places) {
  std::vector<Numbered> order;
  order.reserve(places.size());
  for (const Vec3& v : places) order.push_back({v, static_cast<std::uint32_t>(order.size())});
  std::sort(order.begin(), order.end(),
            [](const Numbered& a, const Numbered& b) { return before(a.at, b.at); });
  return order;
}

// For each place the index of the kept vertex it joins.
std::vector<std::uint32_t> join_sorted(const std::vector<Numbered>& order, double tolerance,
                                       std::vector<Vec3>& kept) {
  std::vector<std::uint32_t> target(order.size());
  if (tolerance <= 0.0) {
    for (const Numbered& p : order) {
      target[p.place] = static_cast<std::uint32_t>(kept.size());
      kept.push_back(p.at);
    }
    return target;
  }
  KeptVertices cells(tolerance, order.size(), kept);
  for (const Numbered& p : order) target[p.place] = cells.find_or_keep(p.at);
  return target;
}

}  // namespace

Mesh weld(const Mesh& mesh, double tolerance) {
  Mesh result;
  const Places places = distinct_places(mesh.vertices);
  const auto target = join_sorted(sorted(places.at), tolerance, result.vertices);
  const auto to = [&](std::uint32_t vertex) { return target[places.of_vertex[vertex]]; };
  for (const Triangle& t : mesh.triangles) {
    const Triangle joined{to(t[0]), to(t[1]), to(t[2])};
    if (joined[0] != joined[1] && joined[1] != joined[2] && joined[2] != joined[0]) {
      result.triangles.push_back(joined);
    }
  }
  return result;
}

void append(Mesh& mesh, const Mesh& other) {
  if (&mesh == &other)
    return append(mesh, Mesh(other));  // what is read must not move while it grows
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), other.vertices.begin(), other.vertices.end());
  for (const auto& [a, b, c] : other.triangles) {
    mesh.triangles.push_back({a + first, b + first, c + first});
  }
}

void append_quad(Mesh& mesh, Vec3 a, Vec3 b, Vec3 c, Vec3 d) {
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), {a, b, c, d});
  mesh.triangles.push_back({first, first + 1, first + 2});
  mesh.triangles.push_back({first, first + 2, first + 3});
}

void flip(Mesh& mesh) {
  for (Triangle& t : mesh.triangles) std::swap(t[1], t[2]);
}

void place(Mesh& mesh, double turn, Vec3 shift) {
  const double c = std::cos(turn);
  const double s = std::sin(turn);
  for (Vec3& v : mesh.vertices) v = Vec3{c * v.x - s * v.y, s * v.x + c * v.y, v.z} + shift;
}

std::vector<Vec3> vertex_normals(const Mesh& mesh) {
  std::vector<Vec3> normals(mesh.vertices.size());
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vec3 n = cross(mesh.vertices[b] - mesh.vertices[a], mesh.vertices[c] - mesh.vertices[a]);
    for (std::uint32_t v : {a, b, c}) normals[v] = normals[v] + n;
  }
  for (Vec3& n : normals) n = length(n) > 0.0 ? unit(n) : Vec3{0.0, 0.0, 1.0};
  return normals;
}

}  // namespace hummock::geom
