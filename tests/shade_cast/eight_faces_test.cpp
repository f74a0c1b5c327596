// Small faces eight at a time, against each by itself and node by node: the same bits.
#include "engine/shade/cast/eight_faces.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/shade/cast/scan_shape.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

constexpr double kOwnPlane = 2e-5;  // m

// Three or four corners of one plane, and what of the beam the face passes.
struct OneFace {
  std::vector<Vec3> corners;
  Vec3 normal;
  float factor = 0;
};

class FaceYard {
 public:
  explicit FaceYard(unsigned seed) : engine_(seed) {
    const double high = (4.0 + 80.0 * share()) * geom::kDegree, round = 2.0 * geom::kPi * share();
    sun = sun_ray(
        {std::cos(high) * std::sin(round), std::cos(high) * std::cos(round), std::sin(high)});
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      tile.x[k] = 0.1F * static_cast<float>(k % kTile);
      const std::size_t row = k / kTile;
      tile.y[k] = 0.1F * static_cast<float>(row);
      tile.z[k] = static_cast<float>(0.3 * share() - 0.15);
      tile.box.add(Vec3{tile.x[k], tile.y[k], tile.z[k]});
    }
    set_even(tile);
    fall = {tile.box.lo, sun.run, {-unit(sun.run).y, unit(sun.run).x}};
    asked = shaded_box(tile.box, fall.ref, sun, fall.across);
    shadow_nodes(tile, sun, fall.ref, nodes);
  }

  double share() { return std::uniform_real_distribution<>(0.0, 1.0)(engine_); }
  double about(double half) { return half * (2.0 * share() - 1.0); }

  // Of one size or another, near the shadow of some height over the tile.
  OneFace face() {
    const double size = 0.05 * std::pow(60.0, share()), z = 2.2 * share() - 0.3;
    const Vec3 at =
        Vec3{0.75 + about(1.3), 0.75 + about(1.3), z} + geom::at_height(sun.run * z, 0.0);
    const Vec3 normal = unit(Vec3{about(1.0), about(1.0), about(1.0)});
    const Vec3 u = unit(cross(normal, Vec3{0.3, 0.5, 0.8})), v = cross(normal, u);
    OneFace f{{}, normal, 0.0F};
    const int corners = share() < 0.5 ? 3 : 4;
    for (int k = 0; k < corners; ++k) {
      const double turn = 2.0 * geom::kPi * (k + 0.3 * share()) / corners;
      f.corners.push_back(at + u * (size * std::cos(turn)) + v * (size * std::sin(turn)));
    }
    if (share() < 0.05) f.corners[1] = f.corners[0], f.corners[2] = f.corners[0];
    if (share() < 0.7) f.factor = static_cast<float>(share());
    return f;
  }

  ShadowPoint shadow(Vec3 p) const {
    const double z = p.z - fall.ref.z;
    return {static_cast<float>(p.x - fall.ref.x - z * sun.run.x),
            static_cast<float>(p.y - fall.ref.y - z * sun.run.y), static_cast<float>(z)};
  }

  // One face over all nodes.
  void take_one(const OneFace& f, std::array<float, kTileNodes>& beam) const {
    std::vector<ShadowPoint> p;
    for (const Vec3& c : f.corners) p.push_back(shadow(c));
    double area = 0.0;
    float low = 1e30F, high = -1e30F;
    for (std::size_t k = 0; k < p.size(); ++k) {
      low = std::min(low, p[k].z);
      high = std::max(high, p[k].z);
      if (k == 0 || k + 1 == p.size()) continue;
      area += (double{p[k].x} - p[0].x) * (double{p[k + 1].y} - p[0].y) -
              (double{p[k].y} - p[0].y) * (double{p[k + 1].x} - p[0].x);
    }
    if (area == 0.0) return;
    const Vec3 n = f.normal;
    const double rises = n.x * sun.run.x + n.y * sun.run.y + n.z;
    const double z0 = dot(n, f.corners[0] - fall.ref) / rises - kOwnPlane / std::abs(rises);
    const ShadowPlane plane{static_cast<float>(z0), static_cast<float>(-n.x / rises),
                            static_cast<float>(-n.y / rises)};
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      bool inside = true;
      for (std::size_t s = 0; s < p.size(); ++s) {
        const ShadowSide side = shadow_side(p[s], p[(s + 1) % p.size()], area > 0.0);
        const float e = (nodes.qx[k] - side.ax) * side.dy - (nodes.qy[k] - side.ay) * side.dx;
        inside = inside && (e < 0.0F) == (side.negative != 0);
      }
      const float top = std::clamp(plane.at(nodes.qx[k], nodes.qy[k]), low, high);
      if (inside && top - nodes.z[k] > 0.0F) beam[k] *= f.factor;
    }
  }

  EightFaces eight(std::span<const OneFace> faces) const {
    FaceCorners c;
    for (const OneFace& f : faces) {
      for (std::size_t k = 0; k < 4; ++k) {
        const ShadowPoint p = shadow(f.corners[k < f.corners.size() ? k : 0]);
        c.corner[k][0][c.count] = p.x;
        c.corner[k][1][c.count] = p.y;
        c.corner[k][2][c.count] = p.z;
      }
      const Vec3 at = f.corners[0], n = f.normal;
      c.through[0][c.count] = at.x, c.through[1][c.count] = at.y, c.through[2][c.count] = at.z;
      c.normal[0][c.count] = n.x, c.normal[1][c.count] = n.y, c.normal[2][c.count] = n.z;
      c.four |= f.corners.size() == 4 ? 1U << c.count : 0U;
      ++c.count;
    }
    EightFaces out{};
    set_up(c, fall, kOwnPlane, out);
    for (std::size_t k = 0; k < faces.size(); ++k) out.factor[k] = faces[k].factor;
    return out;
  }

  ShadowNodes nodes;
  Tile tile;
  SunRay sun;
  FacesFall fall;
  ShadedBox asked;

 private:
  std::mt19937 engine_;
};

TEST(EightFaces, take_what_each_by_itself_takes) {
  std::size_t shaded = 0, dark = 0;
  for (unsigned trial = 0; trial < 300; ++trial) {
    FaceYard yard(900 + trial);
    std::vector<OneFace> faces;
    for (std::size_t k = 0; k < 1 + trial % kWide; ++k) faces.push_back(yard.face());
    std::array<float, kTileNodes> by_one;
    by_one.fill(1.0F);
    for (const OneFace& f : faces) yard.take_one(f, by_one);
    TileBeam beam;
    beam.uniform = true, beam.value = 1.0F;
    std::uint32_t lit = ~0U;
    bool scanned = false;
    const EightFaces eight = yard.eight(faces);
    const std::uint32_t which = faces_meeting(eight, yard.asked);
    if (!take_faces(eight, which, yard.nodes, lit, beam, scanned)) ++dark;
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      ASSERT_EQ(beam.at(k), by_one[k]) << trial << " " << k;
      shaded += by_one[k] < 1.0F ? 1 : 0;
      EXPECT_TRUE(by_one[k] <= 0.0F || (lit >> k / ShadowNodes::kRun & 1U) != 0);
    }
  }
  EXPECT_GT(shaded, 5000U);
  EXPECT_GT(dark, 0U);
}

// So that a day need not add node by node.
TEST(EightFaces, one_over_all_of_a_tile_leaves_one_number) {
  FaceYard yard(31);
  const Vec2 by = yard.sun.run * 3.0;
  const auto at = [&](double x, double y) { return Vec3{x + by.x, y + by.y, 3.0}; };
  const OneFace roof{{at(-9, -9), at(9, -9), at(9, 9), at(-9, 9)}, {0, 0, 1}, 0.25F};
  const EightFaces eight = yard.eight(std::span(&roof, 1));
  TileBeam beam;
  beam.uniform = true, beam.value = 1.0F;
  std::uint32_t lit = ~0U;
  bool scanned = false;
  EXPECT_TRUE(take_faces(eight, faces_meeting(eight, yard.asked), yard.nodes, lit, beam, scanned));
  EXPECT_TRUE(beam.uniform);
  EXPECT_FALSE(scanned);
  EXPECT_EQ(beam.value, 0.25F);
}

}  // namespace
}  // namespace hummock::shade
