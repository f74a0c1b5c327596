#include "geometry/mesh/plane_cut.h"

#include <gtest/gtest.h>

namespace hummock::geom {
namespace {

Mesh box(Vec3 lo, Vec3 hi) {
  Mesh m;
  append_quad(m, {lo.x, lo.y, hi.z}, {hi.x, lo.y, hi.z}, hi, {lo.x, hi.y, hi.z});
  append_quad(m, lo, {hi.x, lo.y, lo.z}, {hi.x, lo.y, hi.z}, {lo.x, lo.y, hi.z});
  append_quad(m, {hi.x, hi.y, lo.z}, {lo.x, hi.y, lo.z}, {lo.x, hi.y, hi.z}, hi);
  append_quad(m, {lo.x, hi.y, lo.z}, lo, {lo.x, lo.y, hi.z}, {lo.x, hi.y, hi.z});
  append_quad(m, {hi.x, lo.y, lo.z}, {hi.x, hi.y, lo.z}, hi, {hi.x, lo.y, hi.z});
  append_quad(m, lo, {lo.x, hi.y, lo.z}, {hi.x, hi.y, lo.z}, {hi.x, lo.y, lo.z});
  return m;
}

double total(const std::vector<CutLine>& lines) {
  double sum = 0.0;
  for (const CutLine& l : lines) sum += distance(l.from, l.to);
  return sum;
}

TEST(PlaneCut, ABoxIsCutInARectangleWhateverTheAngle) {
  const Mesh m = box({1, 1, 0}, {3, 2, 0.7});
  EXPECT_NEAR(total(cut(m, {{0, 1.37}, {10, 1.37}}, 0, 10)), 2 * (2 + 0.7), 1e-9);
  // At 45° through the middle of the short side's reach: the cut is 1·√2 long.
  EXPECT_NEAR(total(cut(m, {{1.2, 0.7}, {2.2, 1.7}}, -5, 5)), 2 * (std::sqrt(2.0) + 0.7), 1e-9);
  EXPECT_TRUE(cut(m, {{0, 5}, {10, 5}}, 0, 10).empty());
}

TEST(PlaneCut, LinesAreClippedToTheRangeAskedFor) {
  for (const CutLine& l : cut(box({1, 1, 0}, {3, 2, 0.7}), {{0, 1.5}, {10, 1.5}}, 1.5, 2.0)) {
    EXPECT_GE(l.from.x, 1.5 - 1e-12);
    EXPECT_LE(l.to.x, 2.0 + 1e-12);
  }
}

TEST(PlaneCut, TheProfileOfATiltedPlaneIsStraight) {
  Heightfield h = level_ground({{0, 0}, {4, 4}}, 0.5, 0);
  for (int j = 0; j < h.grid.ny; ++j) {
    for (int i = 0; i < h.grid.nx; ++i) h.at(i, j) = 0.3 * h.grid.node(i, j).x;
  }
  for (Vec2 p : profile(h, {{0.5, 0.5}, {3.5, 3.5}}, 0, 4)) {
    EXPECT_NEAR(p.y, 0.3 * (0.5 + p.x / std::sqrt(2.0)), 1e-12);
  }
}

}  // namespace
}  // namespace hummock::geom
