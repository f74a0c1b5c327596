// Welding in wide cells joins the same places as looking through the 27 cells one tolerance wide,
// as it was first done.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <random>
#include <tuple>

#include "geometry/mesh/mesh.h"

namespace hummock::geom {
namespace {

Mesh welded_cell_by_cell(const Mesh& soup, double tolerance) {
  const auto& v = soup.vertices;
  std::vector<std::uint32_t> order(v.size()), target(v.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    return std::tie(v[a].x, v[a].y, v[a].z) < std::tie(v[b].x, v[b].y, v[b].z);
  });
  std::map<std::array<long long, 3>, std::vector<std::uint32_t>> cells;
  Mesh out;
  for (const std::uint32_t number : order) {
    const Vec3 p = v[number];
    const auto at = [&](double c) { return static_cast<long long>(std::floor(c / tolerance)); };
    std::uint32_t found = UINT32_MAX;
    for (int k = 0; k < 27 && found == UINT32_MAX; ++k)
      for (const std::uint32_t q :
           cells[{at(p.x) + k % 3 - 1, at(p.y) + k / 3 % 3 - 1, at(p.z) + k / 9 - 1}])
        if (found == UINT32_MAX && distance(out.vertices[q], p) <= tolerance) found = q;
    if (found == UINT32_MAX) {
      found = static_cast<std::uint32_t>(out.vertices.size());
      out.vertices.push_back(p);
      cells[{at(p.x), at(p.y), at(p.z)}].push_back(found);
    }
    target[number] = found;
  }
  for (const Triangle& t : soup.triangles) {
    const Triangle joined{target[t[0]], target[t[1]], target[t[2]]};
    if (joined[0] != joined[1] && joined[1] != joined[2] && joined[2] != joined[0])
      out.triangles.push_back(joined);
  }
  return out;
}

TEST(Weld, WideCellsJoinTheSamePlaces) {
  std::mt19937 random(20260605);
  const auto from = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  for (const double tolerance : {1e-7, 1e-3, 0.05}) {
    for (const double about : {0.0, -3.0, 512.0}) {
      Mesh soup;
      const double side = 20.0 * tolerance;  // crowded: many places may join several
      for (std::uint32_t k = 0; k < 900; ++k) {
        soup.vertices.push_back(
            {about + from(-side, side), about + from(-side, side), from(-tolerance, tolerance)});
        // As in a file of triangles, which says a corner again and again.
        if (k % 4 == 3) soup.vertices[k] = soup.vertices[random() % k];
        if (k % 3 == 2) soup.triangles.push_back({k - 2, k - 1, k});
      }
      const Mesh welded = weld(soup, tolerance), plain = welded_cell_by_cell(soup, tolerance);
      EXPECT_LT(welded.vertices.size(), 700U);
      EXPECT_EQ(welded.vertices, plain.vertices);
      EXPECT_EQ(welded.triangles, plain.triangles);
    }
  }
}

// Every directed edge crossed off against one that runs the other way, edge by edge.
std::size_t open_edges_one_by_one(const Mesh& mesh) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> runs;
  for (const Triangle& t : mesh.triangles)
    for (std::size_t k = 0; k < 3; ++k) {
      const auto mate = runs.find({t[(k + 1) % 3], t[k]});
      if (mate != runs.end() && mate->second > 0)
        --mate->second;
      else
        ++runs[{t[k], t[(k + 1) % 3]}];
    }
  std::size_t open = 0;
  for (const auto& [edge, count] : runs) open += static_cast<std::size_t>(count);
  return open;
}

TEST(OpenEdges, AreThoseLeftWhenMatesAreCrossedOff) {
  std::mt19937 random(20261127);
  EXPECT_EQ(open_edges({}), 0U);
  for (int round = 0; round < 200; ++round) {
    Mesh mesh;
    const std::uint32_t corners = 3 + static_cast<std::uint32_t>(random() % 12);
    mesh.vertices.resize(corners);
    for (std::size_t k = random() % 40; k > 0; --k) {
      const auto a = static_cast<std::uint32_t>(random() % corners);
      const std::uint32_t b = (a + 1 + static_cast<std::uint32_t>(random() % (corners - 1)));
      const std::uint32_t c = b + 1 + static_cast<std::uint32_t>(random() % (corners - 1));
      if (c % corners == a) continue;
      mesh.triangles.push_back({a, b % corners, c % corners});
    }
    EXPECT_EQ(open_edges(mesh), open_edges_one_by_one(mesh)) << round;
    Mesh both = mesh;  // with its reverse it closes
    flip(both);
    append(both, mesh);
    Mesh joined{mesh.vertices, both.triangles};
    for (Triangle& t : joined.triangles)
      for (std::uint32_t& v : t) v %= corners;
    EXPECT_EQ(open_edges(joined), 0U) << round;
  }
}

}  // namespace
}  // namespace hummock::geom
