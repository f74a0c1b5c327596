// What the faces of a rough mesh bear, told tile by tile and from what is kept of its shape,
// against the same told side by side from the definitions (engine/leap/places/places.h).
#include "engine/leap/places/part_faces.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <random>
#include <set>

#include "engine/leap/places/part_pieces.h"
#include "engine/model/body_scene.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

using geom::Vec2;
using geom::Vec3;

// Hills and edges of `across` × `across` cells as a soup, its triangles in no order: with level
// runs, so that there are perches, and a few triangles that are none.
geom::Mesh rough(std::mt19937& random, int across, double cell) {
  const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  std::vector<double> heights(static_cast<std::size_t>((across + 1) * (across + 1)));
  for (double& h : heights) h = 0.3 + cell * 0.4 * below(4);
  const auto node = [&](int i, int j) {
    return Vec3{0.5 + i * cell, 0.5 + j * cell,
                heights[static_cast<std::size_t>(j * (across + 1) + i)]};
  };
  std::vector<std::array<Vec3, 3>> soup;
  for (int j = 0; j < across; ++j) {
    for (int i = 0; i < across; ++i) {
      soup.push_back({node(i, j), node(i + 1, j), node(i + 1, j + 1)});
      soup.push_back({node(i, j), node(i + 1, j + 1), node(i, j + 1)});
      if (below(200) == 0) soup.push_back({node(i, j), node(i, j), node(i + 1, j)});
    }
  }
  std::shuffle(soup.begin(), soup.end(), random);
  geom::Mesh mesh;
  for (const auto& corners : soup) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), corners.begin(), corners.end());
    mesh.triangles.push_back({first, first + 1, first + 2});
  }
  return mesh;
}

Model yard_of(std::mt19937& random, int across, double cell) {
  Site site = test::yard(3.0, 3.0, 1.2);
  test::add_box(site, "rock", {1.5, 1.5}, {0.5, 0.5, 0.5});
  Model model = test::built(site);
  Part& part = model.parts[static_cast<std::size_t>(model.object_part[0])];
  part.mesh = rough(random, across, cell);
  part.closed = false;
  part.surface = Surface::rock;
  model.body_scene = body_scene_of(model);
  return model;
}

// From the definitions, by maps.
struct Witness {
  using Place = std::array<long long, 3>;
  const Part& part;
  const PlaceRules& rules;
  bool climbed;
  std::vector<Vec3> normal;
  std::vector<Footing> footing;
  std::map<std::pair<Place, Place>, std::vector<std::pair<std::size_t, std::size_t>>> rounds;

  Place place(std::size_t t, std::size_t k) const {
    const Vec3 v = corners_of(part, t)[k];
    return {std::llround(v.x / 1e-6), std::llround(v.y / 1e-6), std::llround(v.z / 1e-6)};
  }

  Witness(const Model& model, const Part& of, const PlaceRules& by)
      : part(of), rules(by), climbed(can_climb(model, by, of)) {
    for (std::size_t t = 0; t < part.mesh.triangles.size(); ++t) {
      const auto c = corners_of(part, t);
      Vec3 n = unit(cross(c[1] - c[0], c[2] - c[0]));
      if (n.z < 0.0) n = -n;  // a sheet is stood on
      normal.push_back(n);
      Footing f = Footing::none;
      if (length(n) > 0.5 && n.z >= std::cos(rules.stand_slope))
        f = Footing::stand;
      else if (length(n) > 0.5 && climbed && n.z >= steepest_climbed(part, rules))
        f = Footing::cling;
      footing.push_back(f);
      for (std::size_t k = 0; k < 3; ++k)
        rounds[std::minmax(place(t, k), place(t, (k + 1) % 3))].emplace_back(t, k);
    }
  }

  double fall(std::size_t t, Vec3 a, Vec3 b) const {
    Vec3 far = a;
    double most = -1.0;
    for (const Vec3& v : corners_of(part, t)) {
      const double off = length(cross(v - a, b - a));
      if (off > most) most = off, far = v;
    }
    const Vec2 along = xy(b) - xy(a);
    const double u = dot(xy(far) - xy(a), along) / dot(along, along);
    return std::atan2(a.z + (b.z - a.z) * u - far.z, length(xy(far) - (xy(a) + along * u)));
  }

  bool perch(const std::vector<std::pair<std::size_t, std::size_t>>& round) const {
    const auto [first, side] = round.front();
    const Vec3 a = corners_of(part, first)[side], b = corners_of(part, first)[(side + 1) % 3];
    const double run = length(xy(b) - xy(a));
    if (rules.body.perch > 0.0 || run < 1e-9 ||
        std::abs(b.z - a.z) > run * std::tan(kSteepestPerch))
      return false;
    double falls = 0.0;
    for (const auto& [t, k] : round) {
      if (footing[t] == Footing::stand || fall(t, a, b) < -kLevelAcross) return false;
      falls += fall(t, a, b);
    }
    return round.size() == 1 || falls > kNotFlat;
  }

  bool rim(const std::vector<std::pair<std::size_t, std::size_t>>& round, std::size_t t) const {
    if (footing[t] == Footing::none) return false;
    const Vec3 on = corners_of(part, t)[0];
    for (const auto& [other, k] : round) {
      if (other == t) continue;
      double deepest = 0.0, highest = 0.0;
      for (const Vec3& v : corners_of(part, other)) {
        deepest = std::min(deepest, dot(v - on, normal[t]));
        highest = std::max(highest, dot(v - on, normal[t]));
      }
      if (footing[other] != Footing::none || highest > 1e-6 - deepest) return false;
    }
    return true;
  }
};

using SideSet = std::set<std::pair<std::size_t, std::size_t>>;

SideSet set_of(const std::vector<TriangleSide>& sides) {
  SideSet out;
  for (const TriangleSide& s : sides) out.emplace(s.triangle, s.side);
  return out;
}

void expect_as_defined(const Model& model, const Part& part, const PlaceRules& rules,
                       const PartFaces& faces) {
  const Witness witness(model, part, rules);
  EXPECT_EQ(faces.footing, witness.footing);
  EXPECT_EQ(faces.shape->normal, witness.normal);
  SideSet rims, perches;
  for (const auto& [ends, round] : witness.rounds) {
    if (witness.perch(round)) perches.insert(round.front());
    for (const auto& side : round) {
      const auto twice = std::count_if(round.begin(), round.end(),
                                       [&](const auto& s) { return s.first == side.first; });
      if (twice == 1 && witness.rim(round, side.first)) rims.insert(side);
      // Faces with a footing are one patch across an edge.
      for (const auto& other : round) {
        if (faces.footing[side.first] != Footing::none &&
            faces.footing[other.first] != Footing::none) {
          ASSERT_EQ(faces.patch[side.first], faces.patch[other.first]);
        }
      }
    }
  }
  EXPECT_EQ(set_of(faces.rims), rims);
  EXPECT_EQ(set_of(faces.perches), perches);
  ASSERT_EQ(faces.perches.size(), perches.size());
  // The test means something only where there is some of each.
  EXPECT_GT(rims.size(), 100U);
  EXPECT_EQ(perches.size() > 100, rules.body.perch <= 0.0);
}

PlaceRules rules_for(const Model& model, double slope, double perch, bool climbs) {
  PlaceRules rules = place_rules(model.site.species, 0.05, false);
  rules.stand_slope = slope;
  rules.body.perch = perch;
  rules.climbs.clear();
  if (climbs) rules.climbs = {"rock"};
  return rules;
}

TEST(PartFaces, OfARoughMeshAreThoseOfTheDefinitions) {
  std::mt19937 random(411);
  const Model model = yard_of(random, 90, 0.02);  // several tiles of triangles and of sides
  const Part& part = model.parts[static_cast<std::size_t>(model.object_part[0])];
  PartShapePtr kept;
  for (const double perch : {0.05, 0.0}) {
    for (const double slope : {0.3, 0.6}) {
      const PlaceRules rules = rules_for(model, slope, perch, slope > 0.5);
      if (!kept || !bears_on(*kept, part, rules)) kept = shape_of(model, part, rules);
      expect_as_defined(model, part, rules, part_faces(model, part, rules, kept));
      if (HasFatalFailure()) return;
    }
  }
}

bool same_piece(const LaidPiece& a, const LaidPiece& b) {
  return a.spot.at == b.spot.at && a.spot.cell.lo == b.spot.cell.lo &&
         a.spot.cell.hi == b.spot.cell.hi && a.spot.hook == b.spot.hook &&
         a.spot.cling == b.spot.cling && a.probe == b.probe && a.corners == b.corners &&
         a.normal == b.normal && a.patch == b.patch;
}

// Triangles within one square of the lattice, and others that lie over several.
TEST(PartPieces, NoneHangsOnTheTile) {
  std::mt19937 random(412);
  for (const double cell : {0.013, 0.11}) {
    const Model model = yard_of(random, 20, cell);
    const Part& part = model.parts[static_cast<std::size_t>(model.object_part[0])];
    const PlaceRules rules = rules_for(model, 0.4, 0.0, true);
    const PartFaces faces = part_faces(model, part, rules, shape_of(model, part, rules));
    const auto whole = lay_pieces(model, part, faces, rules, part.mesh.vertices.size() * 10);
    EXPECT_GT(whole.size(), 50U);
    for (const std::size_t tile : {1U, 7U, 100U}) {
      const auto tiled = lay_pieces(model, part, faces, rules, tile);
      ASSERT_EQ(tiled.size(), whole.size());
      for (std::size_t k = 0; k < whole.size(); ++k)
        ASSERT_TRUE(same_piece(tiled[k], whole[k])) << cell << " piece " << k;
    }
  }
}

}  // namespace
}  // namespace hummock::leap
