#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <unordered_map>

#include "engine/leap/places/places.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Box3;
using geom::Mesh;
using geom::Vec2;
using geom::Vec3;

namespace {

bool among(const std::vector<std::string>& list, const char* item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

bool is_fence(PartKind kind) {
  return kind == PartKind::panel || kind == PartKind::gate;
}

// Corners at one place get one number, so that triangles of a soup know their neighbours.
std::vector<std::uint32_t> places_of_corners(const Mesh& mesh) {
  struct Hash {
    std::size_t operator()(const std::array<std::int64_t, 3>& k) const {
      std::uint64_t h = 0x9E3779B97F4A7C15ULL;
      for (const std::int64_t v : k)
        h = (h ^ static_cast<std::uint64_t>(v)) * 0xBF58476D1CE4E5B9ULL;
      return static_cast<std::size_t>(h ^ (h >> 31));
    }
  };
  constexpr double kSame = 1e-6;  // m
  std::unordered_map<std::array<std::int64_t, 3>, std::uint32_t, Hash> seen;
  std::vector<std::uint32_t> place;
  place.reserve(mesh.vertices.size());
  for (const Vec3& v : mesh.vertices) {
    const std::array<std::int64_t, 3> key{std::llround(v.x / kSame), std::llround(v.y / kSame),
                                          std::llround(v.z / kSame)};
    place.push_back(seen.emplace(key, static_cast<std::uint32_t>(seen.size())).first->second);
  }
  return place;
}

enum class Footing : char { none, stand, cling };

// Walks one part's triangles and gathers spots by patch, merged on a lattice fixed to the part so
// that a moved thing keeps its spots.
class PartSampler {
 public:
  PartSampler(const Model& model, int part, const PlaceRules& rules)
      : model_(model),
        part_(model.parts[static_cast<std::size_t>(part)]),
        number_(part),
        rules_(rules),
        climbable_(can_climb(model, rules, part_)),
        snow_(part_.closed ? snow_depth(model) : 0.0),
        corner_(geom::bounds(part_.mesh).lo) {}

  std::vector<PatchPtr> run() {
    look_at_triangles();
    join_neighbours();
    for (std::size_t t = 0; t < footing_.size(); ++t) {
      if (footing_[t] != Footing::none) lay_face(t);
    }
    lay_rims();
    lay_perches();
    return finish();
  }

 private:
  std::array<Vec3, 3> corners(std::size_t t) const {
    const geom::Triangle& v = part_.mesh.triangles[t];
    return {part_.mesh.vertices[v[0]], part_.mesh.vertices[v[1]], part_.mesh.vertices[v[2]]};
  }

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
    const bool any_slope =
        part_.climbable || rules_.climb_inverted || part_.kind == PartKind::crown;
    const double steepest = any_slope ? -2.0 : -std::sin(rules_.body.climbs_past_upright) - 1e-9;
    for (std::size_t t = 0; t < part_.mesh.triangles.size(); ++t) {
      const Vec3 n = facing(t);
      normal_.push_back(n);
      Footing f = Footing::none;
      if (length(n) > 0.5) {
        if (n.z >= flat && holds_weight())
          f = Footing::stand;
        else if (climbable_ && n.z >= steepest)
          f = Footing::cling;
      }
      if (f == Footing::cling && part_.kind == PartKind::crown) f = Footing::stand;
      footing_.push_back(f);
    }
  }

  bool holds_weight() const {
    return !is_fence(part_.kind) && part_.kind != PartKind::overhang &&
           part_.kind != PartKind::roof;
  }

  static constexpr std::uint32_t kNoTriangle = 0xFFFFFFFFU;

  std::uint32_t root(std::uint32_t t) {
    while (parent_[t] != t) t = parent_[t] = parent_[parent_[t]];
    return t;
  }

  void join_neighbours() {
    place_ = places_of_corners(part_.mesh);
    parent_.resize(part_.mesh.triangles.size());
    std::iota(parent_.begin(), parent_.end(), 0U);
    struct Edge {
      std::uint64_t ends;
      std::uint32_t triangle;
      std::uint32_t side;
    };
    std::vector<Edge> edges;
    edges.reserve(3 * parent_.size());
    for (std::uint32_t t = 0; t < parent_.size(); ++t) {
      const geom::Triangle& v = part_.mesh.triangles[t];
      for (std::uint32_t k = 0; k < 3; ++k) {
        const std::uint64_t a = place_[v[k]];
        const std::uint64_t b = place_[v[(k + 1) % 3]];
        edges.push_back({std::min(a, b) << 32 | std::max(a, b), t, k});
      }
    }
    std::sort(edges.begin(), edges.end(), [](const Edge& l, const Edge& r) {
      return std::tie(l.ends, l.triangle, l.side) < std::tie(r.ends, r.triangle, r.side);
    });
    for (std::size_t k = 0; k < edges.size();) {
      std::size_t end = k + 1;
      while (end < edges.size() && edges[end].ends == edges[k].ends) ++end;
      std::vector<std::uint32_t> round;
      for (std::size_t i = k; i < end; ++i) round.push_back(edges[i].triangle);
      join_round(round, edges[k].side);
      if (is_perch(round, edges[k].side)) perches_.push_back({round.front(), edges[k].side});
      k = end;
    }
    join_perches();
  }

  // A crest, rim or free edge that bears the animal though no face beside it does.
  bool is_perch(const std::vector<std::uint32_t>& round, std::uint32_t side) const {
    if (!holds_weight() || part_.kind == PartKind::crown || rules_.body.perch > 0.0) return false;
    for (const std::uint32_t t : round) {
      if (footing_[t] == Footing::stand) return false;
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
    const auto first = static_cast<std::uint32_t>(parent_.size());
    std::unordered_map<std::uint32_t, std::uint32_t> at_corner;
    const auto join = [&](std::uint32_t corner, std::uint32_t member) {
      const auto [it, fresh] = at_corner.emplace(corner, member);
      if (fresh) return;
      const auto a = root(it->second);
      const auto b = root(member);
      parent_[std::max(a, b)] = std::min(a, b);
    };
    for (std::uint32_t k = 0; k < perches_.size(); ++k) {
      parent_.push_back(first + k);
      const geom::Triangle& v = part_.mesh.triangles[perches_[k].first];
      join(place_[v[perches_[k].second]], first + k);
      join(place_[v[(perches_[k].second + 1) % 3]], first + k);
    }
    if (perches_.empty()) return;
    for (std::uint32_t t = 0; t < first; ++t) {
      if (footing_[t] == Footing::none) continue;
      for (const auto corner : part_.mesh.triangles[t]) {
        if (at_corner.contains(place_[corner])) join(place_[corner], t);
      }
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

  void lay_perches() {
    const auto first = static_cast<std::uint32_t>(part_.mesh.triangles.size());
    for (std::uint32_t r = 0; r < perches_.size(); ++r) {
      const auto c = corners(perches_[r].first);
      const Vec3 a = c[perches_[r].second];
      const Vec3 b = c[(perches_[r].second + 1) % 3];
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
        lay({root(first + r), 5, cell(d.x, 0.0), cell(d.y, 0.0), cell(d.z, 0.0)}, spot, spot.at,
            {lerp(p, q, 0.05) + lift, lerp(p, q, 0.95) + lift, lerp(p, q, 0.25) + lift,
             lerp(p, q, 0.75) + lift});
      }
    }
  }

  // Triangles round one edge: those with a footing are one patch; one with a footing whose
  // neighbours have none and fall away has a rim there.
  void join_round(const std::vector<std::uint32_t>& round, std::uint32_t side_of_first) {
    std::uint32_t with = kNoTriangle;
    int footed = 0;
    for (const std::uint32_t t : round) {
      if (footing_[t] == Footing::none) continue;
      ++footed;
      if (with == kNoTriangle)
        with = t;
      else
        parent_[std::max(root(with), root(t))] = std::min(root(with), root(t));
    }
    if (footed != 1) return;
    std::uint32_t side = side_of_first;
    if (round.front() != with) side = side_matching(with, round.front(), side_of_first);
    for (const std::uint32_t t : round) {
      if (t != with && !falls_away(with, t)) return;
    }
    rims_.push_back({with, side});
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
      const double d = dot(v - c[0], normal_[t]);
      deepest = std::min(deepest, d);
      highest = std::max(highest, d);
    }
    return highest <= 1e-6 + -deepest;
  }

  // --- laying spots

  struct Key {
    std::uint32_t patch;
    int axis, i, j, k;
    bool operator==(const Key&) const = default;
  };
  struct KeyHash {
    std::size_t operator()(const Key& key) const {
      std::uint64_t h = key.patch;
      for (const int v : {key.axis, key.i, key.j, key.k}) {
        h = (h ^ static_cast<std::uint64_t>(static_cast<std::uint32_t>(v))) * 0x9E3779B97F4A7C15ULL;
        h ^= h >> 29;
      }
      return static_cast<std::size_t>(h);
    }
  };
  struct Laid {
    SurfacePiece spot;
    Vec3 probe;                   // where headroom is asked
    std::array<Vec3, 4> corners;  // where else the piece may be free, if it is not there
    std::uint32_t patch = 0;
  };

  int cell(double v, double from) const {
    return static_cast<int>(std::floor((v - from) / rules_.resolution));
  }

  void lay(const Key& key, const SurfacePiece& spot, Vec3 probe,
           const std::array<Vec3, 4>& corners) {
    const auto [it, fresh] = lookup_.emplace(key, laid_.size());
    if (fresh)
      laid_.push_back({spot, probe, corners, key.patch});
    else
      laid_[it->second].spot.cell.add(spot.cell);
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
    for (int i = lo; i <= hi; ++i) {
      const double a = u0 + i * rules_.resolution;
      std::vector<Vec3> strip =
          cut(cut({c[0], c[1], c[2]}, u, a, true), u, a + rules_.resolution, false);
      if (strip.size() < 3) continue;
      Box3 of_strip;
      for (const Vec3& p : strip) of_strip.add(p);
      for (int j = cell(v(of_strip.lo), v0); j <= cell(v(of_strip.hi), v0); ++j) {
        const double b = v0 + j * rules_.resolution;
        lay_piece(t, axis, i, j, cut(cut(strip, v, b, true), v, b + rules_.resolution, false));
      }
    }
  }

  template <class Coordinate>
  static std::vector<Vec3> cut(const std::vector<Vec3>& piece, Coordinate c, double at,
                               bool above) {
    std::vector<Vec3> kept;
    const std::size_t n = piece.size();
    for (std::size_t k = 0; k < n; ++k) {
      const Vec3& p = piece[k];
      const Vec3& q = piece[(k + 1) % n];
      const double dp = above ? c(p) - at : at - c(p);
      const double dq = above ? c(q) - at : at - c(q);
      if (dp >= 0.0) kept.push_back(p);
      if ((dp > 0.0 && dq < 0.0) || (dp < 0.0 && dq > 0.0))
        kept.push_back(lerp(p, q, dp / (dp - dq)));
    }
    return kept;
  }

  void lay_piece(std::size_t t, int axis, int i, int j, const std::vector<Vec3>& piece) {
    if (piece.size() < 3) return;
    SurfacePiece spot;
    Vec3 sum;
    for (const Vec3& p : piece) {
      spot.cell.add(p);
      sum = sum + p;
    }
    const Vec3 size = spot.cell.hi - spot.cell.lo;
    if (dot(size, size) < 1e-10) return;  // a sliver of the lattice's rounding
    const Vec3 middle = sum * (1.0 / static_cast<double>(piece.size()));
    spot.at = middle + normal_[t] * kLift;
    spot.cling = footing_[t] == Footing::cling;
    const double third = axis == 0   ? middle.x - corner_.x
                         : axis == 1 ? middle.y - corner_.y
                                     : middle.z - corner_.z;
    const int layer = static_cast<int>(std::floor(third / rules_.resolution));
    const int facing_up = spot.cling ? 8 : 0;
    std::array<Vec3, 4> near_corners;
    for (std::size_t k = 0; k < near_corners.size(); ++k) {
      const Vec3 corner = piece[k * piece.size() / near_corners.size()];
      near_corners[k] = lerp(middle, corner, 0.9) + normal_[t] * kLift;
    }
    lay({root(static_cast<std::uint32_t>(t)), axis + facing_up, i, j, layer}, spot, spot.at,
        near_corners);
  }

  void lay_rims() {
    for (const auto& [t, side] : rims_) {
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
        spot.cling = footing_[t] == Footing::cling;
        const Vec3 inwards = unit(inner - middle);
        const Vec3 d = middle - corner_;
        const Vec3 in = inwards * std::min(0.01, 0.5 * distance(inner, middle));
        const Vec3 lift = normal_[t] * kLift;
        lay({root(t), 4 + (spot.cling ? 8 : 0), cell(d.x, 0.0), cell(d.y, 0.0), cell(d.z, 0.0)},
            spot, spot.at + in,
            {lerp(p, q, 0.05) + in + lift, lerp(p, q, 0.95) + in + lift,
             lerp(p, q, 0.25) + in + lift, lerp(p, q, 0.75) + in + lift});
      }
    }
  }

  // --- what of it can be used

  double barrier_top_near(Vec2 p) const {
    double best = 1e300;
    double top = 1e300;
    for (const Panel& panel : model_.panels) {
      const double d = geom::distance_to_segment(p, panel.a, panel.b);
      if (d >= best) continue;
      best = d;
      top = std::max(panel.top_a, panel.top_b);
    }
    return top;
  }

  // Moves the piece's point to a corner of it where the middle cannot be used.
  bool find_usable(Laid& laid) const {
    if (usable(laid.spot, laid.probe)) return true;
    for (const Vec3& corner : laid.corners) {
      if (!usable(laid.spot, corner)) continue;
      laid.spot.at = corner;
      return true;
    }
    return false;
  }

  bool usable(const SurfacePiece& spot, Vec3 from) const {
    if (!holds_weight()) return true;
    if (geom::covers(model_.ground, xy(from)) &&
        from.z < geom::height_at(model_.ground, xy(from)) - kLift) {
      return false;
    }
    const bool held = spot.cling || part_.kind == PartKind::crown;
    return room_above(model_, from, held ? 0.0 : rules_.body.crouch);
  }

  // Snow on a level top: left from its surface, gained as without it (places.h).
  void lay_snow(SurfacePiece& spot) const {
    if (snow_ <= 0.0 || spot.cling || part_.kind == PartKind::crown) return;
    spot.at.z += snow_;
    spot.cell.hi.z += snow_;
  }

  std::vector<PatchPtr> finish() {
    std::map<std::uint32_t, std::shared_ptr<Patch>> patches;
    for (Laid& laid : laid_) {
      bool beyond = false;
      if (holds_weight() && !geom::contains(model_.outline, xy(laid.spot.at))) {
        if (geom::distance_to_edges(model_.outline, xy(laid.spot.at)) > 0.01) {
          if (laid.spot.at.z < barrier_top_near(xy(laid.spot.at))) continue;
          beyond = true;
        }
      }
      if (!find_usable(laid)) continue;
      auto& patch = patches[laid.patch];
      if (!patch) {
        patch = std::make_shared<Patch>();
        patch->kind = PatchKind::thing;
        patch->part = number_;
        patch->name = part_.name;
      }
      if (beyond) patch->exit = ExitKind::beyond;
      lay_snow(laid.spot);
      patch->pieces.push_back(laid.spot);
    }
    std::vector<PatchPtr> result;
    for (auto& [id, patch] : patches) {
      build_tree(*patch);
      result.push_back(patch);
    }
    return result;
  }

  const Model& model_;
  const Part& part_;
  int number_;
  const PlaceRules& rules_;
  bool climbable_;
  double snow_;  // m
  Vec3 corner_;
  std::vector<Vec3> normal_;
  std::vector<Footing> footing_;
  std::vector<std::uint32_t> place_, parent_;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> rims_, perches_;  // triangle, side
  std::unordered_map<Key, std::size_t, KeyHash> lookup_;
  std::vector<Laid> laid_;
};

bool may_hold_places(const Model& model, const PlaceRules& rules, const Part& part) {
  switch (part.kind) {
    case PartKind::object:
    case PartKind::den:
    case PartKind::house:
      return true;
    case PartKind::crown:
    case PartKind::panel:
    case PartKind::gate:
    case PartKind::overhang:
      return can_climb(model, rules, part);
    case PartKind::roof:
      return rules.climb_inverted && can_climb(model, rules, part);
    default:
      return false;
  }
}

}  // namespace

PlaceRules place_rules(const Species& species, double resolution, bool climb_inverted) {
  PlaceRules rules;
  rules.ability = ability_of(species);
  rules.resolution = std::min(resolution, kCoarsest);
  rules.stand_slope = species.stand_slope.value;
  rules.climbs = species.climbs.value;
  rules.least_opening = species.least_opening.value;
  rules.wade_depth = species.wade_depth.value;
  rules.body = body_of(species);
  rules.climb_inverted = climb_inverted || rules.body.hangs;
  return rules;
}

double snow_depth(const Model& model) {
  double depth = 0.0;
  for (const Panel& panel : model.panels) {
    if (panel.gate >= 0) continue;
    depth = std::max(depth, geom::height_at(model.ground, panel.a) - panel.foot_a);
    depth = std::max(depth, geom::height_at(model.ground, panel.b) - panel.foot_b);
  }
  constexpr double kRounding = 1e-6;  // m
  return depth > kRounding ? depth : 0.0;
}

bool room_above(const Model& model, Vec3 from, double crouch) {
  const geom::Hit hit = model.body_scene->first_hit({from, {0.0, 0.0, 1.0}, 0.0, 1e30});
  if (!hit || hit.id == kGroundId) return true;
  const bool inside = model.parts[static_cast<std::size_t>(hit.id)].closed && hit.normal.z > 0.0;
  return !inside && hit.t >= crouch;
}

namespace {

// A tree's crown bears what its tree is marked to bear.
bool marked_climbable(const Model& model, const Part& part) {
  if (part.climbable) return true;
  const auto source = static_cast<std::size_t>(part.source);
  return part.kind == PartKind::crown && part.source >= 0 && source < model.site.objects.size() &&
         model.site.objects[source].climbable;
}

}  // namespace

bool can_climb(const Model& model, const PlaceRules& rules, const Part& part) {
  if (marked_climbable(model, part)) return true;
  if (part.kind == PartKind::crown) return among(rules.climbs, "bark");
  switch (part.surface) {
    case Surface::mesh:
      return among(rules.climbs, "mesh");
    case Surface::rock:
      return among(rules.climbs, "rock");
    case Surface::wood:
      return among(rules.climbs, "wood");
    case Surface::bark:
      return among(rules.climbs, "bark");
    case Surface::earth:
      return among(rules.climbs, "earth");
    default:
      return false;
  }
}

std::vector<PatchPtr> part_places(const Model& model, int part, const PlaceRules& rules) {
  const Part& p = model.parts[static_cast<std::size_t>(part)];
  if (!may_hold_places(model, rules, p) || p.mesh.empty()) return {};
  return PartSampler(model, part, rules).run();
}

}  // namespace hummock::leap
