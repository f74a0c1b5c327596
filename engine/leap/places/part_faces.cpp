#include "engine/leap/places/part_faces.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/leap/places/flat_index.h"
#include "geometry/disjoint_sets.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Mesh;
using geom::Vec2;
using geom::Vec3;

namespace {

bool is_fence(PartKind kind) {
  return kind == PartKind::panel || kind == PartKind::gate;
}

// Corners at one place get one number, so that triangles of a soup know their neighbours.
std::vector<std::uint32_t> places_of_corners(const Mesh& mesh) {
  using Key = std::array<std::int64_t, 3>;
  struct Hash {
    std::size_t operator()(const Key& k) const {
      std::uint64_t h = 0x9E3779B97F4A7C15ULL;
      for (const std::int64_t v : k)
        h = (h ^ static_cast<std::uint64_t>(v)) * 0xBF58476D1CE4E5B9ULL;
      return static_cast<std::size_t>(h ^ (h >> 31));
    }
  };
  constexpr double kSame = 1e-6;  // m
  FlatIndex<Key, Hash> seen;
  seen.reserve(mesh.vertices.size());
  std::vector<std::uint32_t> place;
  place.reserve(mesh.vertices.size());
  for (const Vec3& v : mesh.vertices) {
    const Key key{std::llround(v.x / kSame), std::llround(v.y / kSame), std::llround(v.z / kSame)};
    place.push_back(seen.number(key).first);
  }
  return place;
}

class FaceReader {
 public:
  FaceReader(const Model& model, const Part& part, const PlaceRules& rules)
      : model_(model),
        part_(part),
        rules_(rules),
        climbable_(can_climb(model, rules, part)),
        patches_(part.mesh.triangles.size()) {}

  PartFaces run() {
    look_at_triangles();
    join_neighbours();
    out_.patch.reserve(patches_.size());
    for (std::size_t m = 0; m < patches_.size(); ++m) {
      out_.patch.push_back(static_cast<std::uint32_t>(patches_.root(m)));
    }
    return std::move(out_);
  }

 private:
  std::array<Vec3, 3> corners(std::size_t t) const { return corners_of(part_, t); }

  // Unit normal towards where the animal is: up for sheets, inwards for fences.
  Vec3 facing(std::size_t t) const {
    const auto c = corners(t);
    Vec3 n = unit(cross(c[1] - c[0], c[2] - c[0]));
    if (is_fence(part_.kind)) {
      const Vec3 middle = (c[0] + c[1] + c[2]) * (1.0 / 3.0);
      const bool inwards = geom::contains(model_.outline, xy(middle + n * 0.02));
      return inwards ? n : -n;
    }
    // Sheets overhead are hung from: their underside. Other sheets are stood on.
    const bool overhead = part_.kind == PartKind::overhang || part_.kind == PartKind::roof;
    if (overhead ? n.z > 0.0 : !part_.closed && n.z < 0.0) n = -n;
    return n;
  }

  void look_at_triangles() {
    const double flat = std::cos(rules_.stand_slope);
    const double steepest = steepest_climbed(part_, rules_);
    out_.normal.reserve(part_.mesh.triangles.size());
    out_.footing.reserve(part_.mesh.triangles.size());
    for (std::size_t t = 0; t < part_.mesh.triangles.size(); ++t) {
      const Vec3 n = facing(t);
      out_.normal.push_back(n);
      Footing f = Footing::none;
      if (length(n) > 0.5) {
        if (n.z >= flat && holds_weight(part_))
          f = Footing::stand;
        else if (climbable_ && n.z >= steepest)
          f = Footing::cling;
      }
      if (f == Footing::cling && part_.kind == PartKind::crown) f = Footing::stand;
      out_.footing.push_back(f);
    }
  }

  void join_neighbours() {
    place_ = places_of_corners(part_.mesh);
    const std::vector<Edge> edges = edges_in_order();
    std::vector<std::uint32_t> round;
    for (std::size_t k = 0; k < edges.size();) {
      std::size_t end = k + 1;
      while (end < edges.size() && edges[end].same_ends(edges[k])) ++end;
      round.clear();
      for (std::size_t i = k; i < end; ++i) round.push_back(edges[i].triangle);
      join_round(round, edges[k].side);
      if (is_perch(round, edges[k].side)) out_.perches.push_back({round.front(), edges[k].side});
      k = end;
    }
    join_perches();
  }

  struct Edge {
    std::uint32_t lower, upper;  // its ends' places
    std::uint32_t triangle, side;
    bool same_ends(const Edge& o) const { return lower == o.lower && upper == o.upper; }
  };

  // By their lower end (of which each has few), then by the rest.
  std::vector<Edge> edges_in_order() const {
    const auto edge_of = [&](std::uint32_t t, std::uint32_t k) {
      const geom::Triangle& v = part_.mesh.triangles[t];
      const auto [lower, upper] = std::minmax(place_[v[k]], place_[v[(k + 1) % 3]]);
      return Edge{lower, upper, t, k};
    };
    const auto triangles = static_cast<std::uint32_t>(part_.mesh.triangles.size());
    std::vector<std::size_t> first(place_.size() + 2, 0);
    for (std::uint32_t t = 0; t < triangles; ++t) {
      for (std::uint32_t k = 0; k < 3; ++k) ++first[edge_of(t, k).lower + 2];
    }
    for (std::size_t k = 2; k < first.size(); ++k) first[k] += first[k - 1];
    std::vector<Edge> edges(3 * static_cast<std::size_t>(triangles));
    for (std::uint32_t t = 0; t < triangles; ++t) {
      for (std::uint32_t k = 0; k < 3; ++k) {
        const Edge edge = edge_of(t, k);
        edges[first[edge.lower + 1]++] = edge;
      }
    }
    for (std::size_t k = 0; k + 1 < first.size(); ++k) {
      const auto at = [&](std::size_t n) { return edges.begin() + static_cast<std::ptrdiff_t>(n); };
      std::sort(at(first[k]), at(first[k + 1]), [](const Edge& l, const Edge& r) {
        return std::tie(l.upper, l.triangle, l.side) < std::tie(r.upper, r.triangle, r.side);
      });
    }
    return edges;
  }

  // A crest, rim or free edge that bears the animal though no face beside it does.
  bool is_perch(const std::vector<std::uint32_t>& round, std::uint32_t side) const {
    if (!holds_weight(part_) || part_.kind == PartKind::crown || rules_.body.perch > 0.0)
      return false;
    for (const std::uint32_t t : round) {
      if (out_.footing[t] == Footing::stand) return false;
    }
    const auto c = corners(round.front());
    const Vec3 a = c[side];
    const Vec3 b = c[(side + 1) % 3];
    const double run = length(xy(b) - xy(a));
    if (run < 1e-9 || std::abs(b.z - a.z) > run * std::tan(kSteepestPerch)) return false;
    double falls = 0.0;
    for (const std::uint32_t t : round) {
      const double fall = fall_across(t, a, b);
      if (fall < -kLevelAcross) return false;
      falls += fall;
    }
    return round.size() == 1 || falls > kNotFlat;
  }

  // How steeply a triangle falls away across the edge a-b, rad; negative where it rises.
  double fall_across(std::uint32_t t, Vec3 a, Vec3 b) const {
    Vec3 far = a;
    double most = -1.0;
    for (const Vec3& v : corners(t)) {
      const double off = length(cross(v - a, b - a));
      if (off > most) {
        most = off;
        far = v;
      }
    }
    const Vec2 along = xy(b) - xy(a);
    const double u = dot(xy(far) - xy(a), along) / dot(along, along);
    const double out = length(xy(far) - (xy(a) + along * u));
    return std::atan2(a.z + (b.z - a.z) * u - far.z, out);
  }

  // Perches are patches like faces: one with the perches and the faces they meet at a corner.
  void join_perches() {
    const auto first = static_cast<std::uint32_t>(patches_.size());
    if (out_.perches.empty()) return;
    constexpr std::uint32_t kNobody = 0xFFFFFFFFU;
    std::vector<std::uint32_t> at_corner(place_.size(), kNobody);  // by place
    const auto join = [&](std::uint32_t corner, std::uint32_t member) {
      if (at_corner[corner] == kNobody)
        at_corner[corner] = member;
      else
        patches_.join(at_corner[corner], member);
    };
    for (std::uint32_t k = 0; k < out_.perches.size(); ++k) {
      patches_.add();
      const geom::Triangle& v = part_.mesh.triangles[out_.perches[k].triangle];
      join(place_[v[out_.perches[k].side]], first + k);
      join(place_[v[(out_.perches[k].side + 1) % 3]], first + k);
    }
    for (std::uint32_t t = 0; t < first; ++t) {
      if (out_.footing[t] == Footing::none) continue;
      for (const auto corner : part_.mesh.triangles[t]) {
        if (at_corner[place_[corner]] != kNobody) join(place_[corner], t);
      }
    }
  }

  // Triangles round one edge: those with a footing are one patch; one with a footing whose
  // neighbours have none and fall away has a rim there.
  void join_round(const std::vector<std::uint32_t>& round, std::uint32_t side_of_first) {
    constexpr std::uint32_t kNoTriangle = 0xFFFFFFFFU;
    std::uint32_t with = kNoTriangle;
    int footed = 0;
    for (const std::uint32_t t : round) {
      if (out_.footing[t] == Footing::none) continue;
      ++footed;
      if (with == kNoTriangle)
        with = t;
      else
        patches_.join(with, t);
    }
    if (footed != 1) return;
    std::uint32_t side = side_of_first;
    if (round.front() != with) side = side_matching(with, round.front(), side_of_first);
    for (const std::uint32_t t : round) {
      if (t != with && !falls_away(with, t)) return;
    }
    out_.rims.push_back({with, side});
  }

  std::uint32_t side_matching(std::uint32_t t, std::uint32_t other, std::uint32_t side) const {
    const geom::Triangle& o = part_.mesh.triangles[other];
    const std::uint32_t a = place_[o[side]];
    const std::uint32_t b = place_[o[(side + 1) % 3]];
    const geom::Triangle& v = part_.mesh.triangles[t];
    for (std::uint32_t k = 0; k < 3; ++k) {
      const std::uint32_t p = place_[v[k]];
      const std::uint32_t q = place_[v[(k + 1) % 3]];
      if ((p == a && q == b) || (p == b && q == a)) return k;
    }
    return 0;
  }

  bool falls_away(std::uint32_t t, std::uint32_t other) const {
    const auto c = corners(t);
    double deepest = 0.0;
    double highest = 0.0;
    for (const Vec3& v : corners(other)) {
      const double d = dot(v - c[0], out_.normal[t]);
      deepest = std::min(deepest, d);
      highest = std::max(highest, d);
    }
    return highest <= 1e-6 + -deepest;
  }

  const Model& model_;
  const Part& part_;
  const PlaceRules& rules_;
  bool climbable_;
  std::vector<std::uint32_t> place_;
  geom::DisjointSets patches_;  // triangles, then perches
  PartFaces out_;
};

}  // namespace

bool holds_weight(const Part& part) {
  return !is_fence(part.kind) && part.kind != PartKind::overhang && part.kind != PartKind::roof;
}

std::array<Vec3, 3> corners_of(const Part& part, std::size_t triangle) {
  const geom::Triangle& v = part.mesh.triangles[triangle];
  return {part.mesh.vertices[v[0]], part.mesh.vertices[v[1]], part.mesh.vertices[v[2]]};
}

double steepest_climbed(const Part& part, const PlaceRules& rules) {
  const bool any_slope = part.climbable || rules.climb_inverted || part.kind == PartKind::crown;
  return any_slope ? kAnySlope : -std::sin(rules.body.climbs_past_upright) - 1e-9;
}

PartFaces part_faces(const Model& model, const Part& part, const PlaceRules& rules) {
  return FaceReader(model, part, rules).run();
}

}  // namespace hummock::leap
