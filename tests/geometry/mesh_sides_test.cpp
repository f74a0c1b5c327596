// Sides that meet, laid out by counting, against a map from the two places to the sides.
#include "geometry/mesh/mesh_sides.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <random>
#include <utility>

namespace hummock::geom {
namespace {

constexpr double kSame = 1e-3;  // m

// Corners on a small lattice, a little off it, so that many are at one place; some triangles have
// two corners at one, or lie on each other.
Mesh crowded(std::mt19937& random, std::size_t triangles) {
  const auto below = [&](int n) {
    return static_cast<double>(random() % static_cast<unsigned>(n));
  };
  Mesh mesh;
  for (std::size_t k = 0; k < 2 * triangles; ++k)
    mesh.vertices.push_back({below(12) + 1e-4 * below(3), below(12) - 1e-4 * below(3), below(4)});
  const auto corner = [&] { return static_cast<std::uint32_t>(random() % mesh.vertices.size()); };
  for (std::size_t k = 0; k < triangles; ++k)
    mesh.triangles.push_back({corner(), corner(), corner()});
  return mesh;
}

using Place = std::array<long long, 3>;

Place place_of(Vec3 v) {
  return {std::llround(v.x / kSame), std::llround(v.y / kSame), std::llround(v.z / kSame)};
}

TEST(MeshSides, AreThoseOfAMapFromTheirPlaces) {
  std::mt19937 random(20261127);
  for (const std::size_t triangles : {0U, 1U, 40U, 3000U}) {
    const Mesh mesh = crowded(random, triangles);
    const MeshSides sides = mesh_sides(mesh, kSame);
    std::map<Place, std::uint32_t> numbers;
    std::vector<std::uint32_t> place;
    for (const Vec3& v : mesh.vertices) {
      const auto next = static_cast<std::uint32_t>(numbers.size());
      place.push_back(numbers.try_emplace(place_of(v), next).first->second);
    }
    EXPECT_EQ(sides.place, place);
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<std::uint32_t>> rounds;
    for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
      for (std::uint32_t k = 0; k < 3; ++k)
        rounds[std::minmax(place[mesh.triangles[t][k]], place[mesh.triangles[t][(k + 1) % 3]])]
            .push_back(3 * t + k);
    }
    ASSERT_EQ(sides.rounds(), rounds.size());
    std::size_t number = 0;
    for (const auto& [ends, expected] : rounds) {
      const auto round = sides.round(number++);
      ASSERT_EQ(std::vector<std::uint32_t>(round.begin(), round.end()), expected);
    }
  }
}

}  // namespace
}  // namespace hummock::geom
