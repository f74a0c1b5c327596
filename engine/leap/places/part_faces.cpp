#include "engine/leap/places/part_faces.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "geometry/disjoint_sets.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;
using geom::Vec3;

namespace {

bool is_fence(PartKind kind) {
  return kind == PartKind::panel || kind == PartKind::gate;
}

constexpr std::size_t kTile = 4096;  // triangles, or rounds of sides; numeric

// Runs work(first, end) over the tiles of 0 … count − 1, in any order.
template <class Work>
void over_tiles(std::size_t count, const Work& work) {
  tbb::parallel_for(std::size_t{0}, (count + kTile - 1) / kTile, [&](std::size_t tile) {
    work(tile * kTile, std::min(count, (tile + 1) * kTile));
  });
}

using Round = std::span<const std::uint32_t>;  // sides (geom::MeshSides)

std::uint32_t triangle_of(std::uint32_t side) {
  return side / 3;
}
TriangleSide of_side(std::uint32_t side) {
  return {triangle_of(side), side % 3};
}

// Perches are asked for on such parts alone.
bool may_have_perches(const Part& part, const PlaceRules& rules) {
  return holds_weight(part) && part.kind != PartKind::crown && rules.body.perch <= 0.0;
}

// Unit normal towards where the animal is: up for sheets, inwards for fences.
Vec3 facing(const Model& model, const Part& part, std::size_t t) {
  const auto c = corners_of(part, t);
  Vec3 n = unit(cross(c[1] - c[0], c[2] - c[0]));
  if (is_fence(part.kind)) {
    const Vec3 middle = (c[0] + c[1] + c[2]) * (1.0 / 3.0);
    const bool inwards = geom::contains(model.outline, xy(middle + n * 0.02));
    return inwards ? n : -n;
  }
  // Sheets overhead are hung from: their underside. Other sheets are stood on.
  const bool overhead = part.kind == PartKind::overhang || part.kind == PartKind::roof;
  if (overhead ? n.z > 0.0 : !part.closed && n.z < 0.0) n = -n;
  return n;
}

// How far a triangle falls away across the edge a-b, m; negative where it rises; and how far out.
struct Fall {
  double down, out;
};

Fall fall_across(const Part& part, std::uint32_t t, Vec3 a, Vec3 b) {
  Vec3 far = a;
  double most = -1.0;
  for (const Vec3& v : corners_of(part, t)) {
    // An end itself lies on the edge: the products below are then the same, and cancel.
    const double off = v == a || v == b ? 0.0 : length(cross(v - a, b - a));
    if (off > most) {
      most = off;
      far = v;
    }
  }
  const Vec2 along = xy(b) - xy(a);
  const double u = dot(xy(far) - xy(a), along) / dot(along, along);
  const double out = length(xy(far) - (xy(a) + along * u));
  return {a.z + (b.z - a.z) * u - far.z, out};
}

// Most edges' faces rise from them by far more than what is level: told without the angle. The
// angle and the product each are within a few rounding errors of the truth, kMore is beyond them.
bool surely_rises(const Fall& fall) {
  constexpr double kMore = 1.0 + 1e-9;
  return fall.down < 0.0 && -fall.down > fall.out * (kMore * std::tan(kLevelAcross));
}

bool is_crest(const Part& part, Round round) {
  const auto [t, side] = of_side(round.front());
  const auto c = corners_of(part, t);
  const Vec3 a = c[side];
  const Vec3 b = c[(side + 1) % 3];
  const double run = length(xy(b) - xy(a));
  if (run < 1e-9 || std::abs(b.z - a.z) > run * std::tan(kSteepestPerch)) return false;
  double falls = 0.0;
  for (const std::uint32_t s : round) {
    const Fall fall = fall_across(part, triangle_of(s), a, b);
    if (surely_rises(fall)) return false;
    const double angle = std::atan2(fall.down, fall.out);
    if (angle < -kLevelAcross) return false;
    falls += angle;
  }
  return round.size() == 1 || falls > kNotFlat;
}

class FaceReader {
 public:
  FaceReader(const Model& model, const Part& part, const PlaceRules& rules,
             const PartShapePtr& shape)
      : part_(part),
        rules_(rules),
        normal_(shape->normal),
        sides_(shape->sides),
        climbable_(can_climb(model, rules, part)),
        patches_(part.mesh.triangles.size()) {
    out_.shape = shape;
  }

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

  void look_at_triangles() {
    const double flat = std::cos(rules_.stand_slope);
    const double steepest = steepest_climbed(part_, rules_);
    const bool bears = holds_weight(part_), crown = part_.kind == PartKind::crown;
    out_.footing.resize(normal_.size(), Footing::none);
    over_tiles(normal_.size(), [&](std::size_t first, std::size_t end) {
      for (std::size_t t = first; t < end; ++t) {
        const Vec3& n = normal_[t];
        if (!(length(n) > 0.5)) continue;
        if (n.z >= flat && bears)
          out_.footing[t] = Footing::stand;
        else if (climbable_ && n.z >= steepest)
          out_.footing[t] = crown ? Footing::stand : Footing::cling;
      }
    });
  }

  // What the rounds of one tile tell, in their order.
  struct Told {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> joined;  // triangles of one patch
    std::vector<TriangleSide> rims, perches;
  };

  // Tile by tile on all cores, put together in their order.
  void join_neighbours() {
    std::vector<Told> tiles((sides_.rounds() + kTile - 1) / kTile);
    const bool perches = may_have_perches(part_, rules_);
    over_tiles(sides_.rounds(), [&](std::size_t first, std::size_t end) {
      Told& told = tiles[first / kTile];
      for (std::size_t k = first; k < end; ++k) {
        const Round round = sides_.round(k);
        join_round(round, told);
        if (perches && out_.shape->crest[k] != 0 && !stood_on(round))
          told.perches.push_back(of_side(round.front()));
      }
    });
    for (const Told& told : tiles) {
      for (const auto& [a, b] : told.joined) patches_.join(a, b);
      out_.rims.insert(out_.rims.end(), told.rims.begin(), told.rims.end());
      out_.perches.insert(out_.perches.end(), told.perches.begin(), told.perches.end());
    }
    join_perches();
  }

  // A crest bears the animal as a perch only where no face beside it does.
  bool stood_on(Round round) const {
    return std::any_of(round.begin(), round.end(), [&](std::uint32_t s) {
      return out_.footing[triangle_of(s)] == Footing::stand;
    });
  }

  // Perches are patches like faces: one with the perches and the faces they meet at a corner.
  void join_perches() {
    const auto first = static_cast<std::uint32_t>(patches_.size());
    if (out_.perches.empty()) return;
    constexpr std::uint32_t kNobody = 0xFFFFFFFFU;
    std::vector<std::uint32_t> at_corner(sides_.place.size(), kNobody);  // by place
    const auto join = [&](std::uint32_t corner, std::uint32_t member) {
      if (at_corner[corner] == kNobody)
        at_corner[corner] = member;
      else
        patches_.join(at_corner[corner], member);
    };
    for (std::uint32_t k = 0; k < out_.perches.size(); ++k) {
      patches_.add();
      const geom::Triangle& v = part_.mesh.triangles[out_.perches[k].triangle];
      join(sides_.place[v[out_.perches[k].side]], first + k);
      join(sides_.place[v[(out_.perches[k].side + 1) % 3]], first + k);
    }
    for (std::uint32_t t = 0; t < first; ++t) {
      if (out_.footing[t] == Footing::none) continue;
      for (const auto corner : part_.mesh.triangles[t]) {
        const std::uint32_t place = sides_.place[corner];
        if (at_corner[place] != kNobody) join(place, t);
      }
    }
  }

  // Triangles round one edge: those with a footing are one patch; one with a footing whose
  // neighbours have none and fall away has a rim there.
  void join_round(Round round, Told& told) const {
    constexpr std::uint32_t kNoSide = 0xFFFFFFFFU;
    std::uint32_t with = kNoSide;  // its side
    int footed = 0;
    for (const std::uint32_t s : round) {
      if (out_.footing[triangle_of(s)] == Footing::none) continue;
      ++footed;
      if (with == kNoSide)
        with = s;
      else
        told.joined.emplace_back(triangle_of(with), triangle_of(s));
    }
    if (footed != 1) return;
    for (const std::uint32_t s : round) {
      if (s != with && !falls_away(triangle_of(with), triangle_of(s))) return;
    }
    told.rims.push_back(of_side(with));
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

  const Part& part_;
  const PlaceRules& rules_;
  const std::vector<Vec3>& normal_;
  const geom::MeshSides& sides_;
  bool climbable_;
  geom::DisjointSets patches_;  // triangles, then perches
  PartFaces out_;
};

}  // namespace

bool holds_weight(const Part& part) {
  return !is_fence(part.kind) && part.kind != PartKind::overhang && part.kind != PartKind::roof;
}

double steepest_climbed(const Part& part, const PlaceRules& rules) {
  const bool any_slope = part.climbable || rules.climb_inverted || part.kind == PartKind::crown;
  return any_slope ? kAnySlope : -std::sin(rules.body.climbs_past_upright) - 1e-9;
}

PartShapePtr shape_of(const Model& model, const Part& part, const PlaceRules& rules) {
  constexpr double kSame = 1e-6;  // m
  auto shape = std::make_shared<PartShape>();
  shape->sides = geom::mesh_sides(part.mesh, kSame);
  shape->normal.resize(part.mesh.triangles.size());
  over_tiles(shape->normal.size(), [&](std::size_t first, std::size_t end) {
    for (std::size_t t = first; t < end; ++t) shape->normal[t] = facing(model, part, t);
  });
  if (!may_have_perches(part, rules)) return shape;
  shape->crest.resize(shape->sides.rounds());
  over_tiles(shape->crest.size(), [&](std::size_t first, std::size_t end) {
    for (std::size_t k = first; k < end; ++k)
      shape->crest[k] = is_crest(part, shape->sides.round(k)) ? 1 : 0;
  });
  return shape;
}

bool bears_on(const PartShape& shape, const Part& part, const PlaceRules& rules) {
  return !may_have_perches(part, rules) || !shape.crest.empty() || shape.sides.rounds() == 0;
}

PartFaces part_faces(const Model& model, const Part& part, const PlaceRules& rules,
                     const PartShapePtr& shape) {
  return FaceReader(model, part, rules, shape).run();
}

}  // namespace hummock::leap
