// The outline of what one sees from above, held against the triangles themselves: a point lies
// under the winding number's 1 or more just when some triangle covers it in plan.
#include "engine/draw/plan_shadow.h"

#include <gtest/gtest.h>

#include <random>

#include "geometry/plan/polygon.h"
#include "tests/support/yard.h"

namespace hummock::draw {
namespace {

using geom::Mesh;
using geom::Vec2;

// Counter-clockwise turns of the lines about p.
int turns(const std::vector<std::vector<Vec2>>& lines, Vec2 p) {
  int sum = 0;
  for (const auto& line : lines) {
    for (std::size_t k = 0; k < line.size(); ++k) {
      const Vec2 a = line[k];
      const Vec2 b = line[(k + 1) % line.size()];
      const double left = geom::cross(b - a, p - a);
      if (a.y <= p.y && b.y > p.y && left > 0.0) ++sum;
      if (b.y <= p.y && a.y > p.y && left < 0.0) --sum;
    }
  }
  return sum;
}

bool covered(const Mesh& mesh, Vec2 p) {
  for (const auto& [a, b, c] : mesh.triangles) {
    if (geom::contains(
            {geom::xy(mesh.vertices[a]), geom::xy(mesh.vertices[b]), geom::xy(mesh.vertices[c])},
            p))
      return true;
  }
  return false;
}

void expect_the_same_ground(const Mesh& mesh, bool closed, std::mt19937& random) {
  const auto lines = plan_shadow(mesh, closed);
  const geom::Box3 box = geom::bounds(mesh);
  std::uniform_real_distribution<double> x(box.lo.x - 0.1, box.hi.x + 0.1);
  std::uniform_real_distribution<double> y(box.lo.y - 0.1, box.hi.y + 0.1);
  for (int k = 0; k < 400; ++k) {
    const Vec2 p{x(random), y(random)};
    EXPECT_EQ(turns(lines, p) > 0, covered(mesh, p)) << p.x << ' ' << p.y;
    EXPECT_GE(turns(lines, p), 0);
  }
}

TEST(PlanShadow, OfAnyTrianglesIsTheirUnion) {
  std::mt19937 random(5);  // NOLINT(cert-msc51-cpp): the same soups every time
  std::uniform_real_distribution<double> at(0.0, 3.0);
  std::uniform_int_distribution<std::uint32_t> vertex(0, 19);
  for (int round = 0; round < 20; ++round) {
    Mesh soup;
    for (int k = 0; k < 20; ++k) soup.vertices.push_back({at(random), at(random), at(random)});
    while (soup.triangles.size() < 25) {
      const geom::Triangle t{vertex(random), vertex(random), vertex(random)};
      if (t[0] != t[1] && t[1] != t[2] && t[2] != t[0]) soup.triangles.push_back(t);
    }
    expect_the_same_ground(soup, false, random);
  }
}

TEST(PlanShadow, OfThingsIsWhatTheyCoverAndIsShort) {
  Site site = test::yard(12, 8, 2.0);
  test::add_boulder(site, "stone", {3, 3}, {1.5, 1.0, 0.9}, 3);
  test::add_log(site, "log", {6, 3}, 2.0, 0.4);
  const Model model = test::built(site);
  std::mt19937 random(6);  // NOLINT(cert-msc51-cpp)
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::object) continue;
    ASSERT_TRUE(part.closed);
    expect_the_same_ground(part.mesh, true, random);
    expect_the_same_ground(part.mesh, false, random);
    std::size_t points = 0;
    for (const auto& line : plan_shadow(part.mesh, true)) points += line.size();
    EXPECT_LT(points, part.mesh.triangles.size() / 2) << part.name;
  }
}

}  // namespace
}  // namespace hummock::draw
