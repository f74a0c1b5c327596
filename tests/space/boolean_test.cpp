// Union, difference and common part against closed forms, and what must be refused.
#include <gtest/gtest.h>

#include "geometry/mesh/boolean_cgal.h"
#include "tests/support/fenced_yard.h"

namespace hummock {
namespace {

using geom::Mesh;
using geom::Solid;
using tests::box;
using tests::stone;

TEST(Boolean, OfOverlappingBoxesHasItsClosedForms) {
  const Mesh a = box({0, 0, 0}, {2, 2, 2});
  const Mesh b = box({1, 1, 1}, {4, 3, 3});
  const Solid both = geom::unite({a, b});
  ASSERT_TRUE(both.ok) << both.reason;
  EXPECT_NEAR(both.volume, 8 + 12 - 1, 1e-12);
  EXPECT_NEAR(geom::subtract(a, b).volume, 7, 1e-12);
  EXPECT_NEAR(geom::common_part(a, b).volume, 1, 1e-12);
  EXPECT_TRUE(geom::is_closed(both.mesh));
}

TEST(Boolean, KeepsBothWhenTheyDoNotMeet) {
  const Solid both = geom::unite({box({0, 0, 0}, {1, 1, 1}), box({5, 0, 0}, {6, 1, 1})});
  ASSERT_TRUE(both.ok) << both.reason;
  EXPECT_NEAR(both.volume, 2, 1e-12);
}

TEST(Boolean, LeavesNothingOfWhatLiesInside) {
  const Solid none = geom::subtract(box({1, 1, 1}, {2, 2, 2}), box({0, 0, 0}, {3, 3, 3}));
  ASSERT_TRUE(none.ok) << none.reason;
  EXPECT_TRUE(none.mesh.empty());
  EXPECT_EQ(none.volume, 0);
}

TEST(Boolean, LeavesACavityAroundWhatLiesInside) {
  const Solid hollow = geom::subtract(box({0, 0, 0}, {3, 3, 3}), box({1, 1, 1}, {2, 2, 2}));
  ASSERT_TRUE(hollow.ok) << hollow.reason;
  EXPECT_NEAR(hollow.volume, 26, 1e-12);
}

// Standing on it exactly, side by side exactly: coplanar faces with bits in common.
TEST(Boolean, UnitesBoxesThatShareAFace) {
  const Solid stack = geom::unite({box({0, 0, 0}, {1, 1, 1}), box({0.25, 0.25, 1}, {0.75, 0.75, 2}),
                                   box({1, 0, 0}, {2, 1, 1})});
  ASSERT_TRUE(stack.ok) << stack.reason;
  EXPECT_NEAR(stack.volume, 1 + 0.25 + 1, 1e-12);
}

TEST(Boolean, RefusesWhatTouchesAlongAnEdgeOnly) {
  const Solid pinched = geom::unite({box({0, 0, 0}, {1, 1, 1}), box({1, 1, 0}, {2, 2, 1})});
  EXPECT_FALSE(pinched.ok);
  EXPECT_FALSE(pinched.reason.empty());
}

TEST(Boolean, RefusesAnOpenMeshAndSaysSo) {
  Mesh open = box({0, 0, 0}, {1, 1, 1});
  open.triangles.pop_back();
  const Solid s = geom::subtract(box({0, 0, 0}, {2, 2, 2}), open);
  EXPECT_FALSE(s.ok);
  EXPECT_EQ(s.reason, "the second solid is not closed");
}

TEST(Boolean, RefusesAMeshThatCrossesItself) {
  Mesh crossed = box({0, 0, 0}, {2, 2, 2});
  geom::append(crossed, box({1, 1, 1}, {3, 3, 3}));
  EXPECT_EQ(geom::unfit_as_solid(crossed), "crosses itself");
}

// Past failure: CGAL ends with a precondition when an edge has four faces.
TEST(Boolean, RefusesBoxesWeldedAlongAnEdge) {
  Mesh pair = box({0, 0, 0}, {1, 1, 1});
  geom::append(pair, box({1, 1, 0}, {2, 2, 1}));
  EXPECT_NE(geom::unfit_as_solid(geom::weld(pair, 1e-9)), "");
}

TEST(Boolean, RefusesNotANumber) {
  Mesh bad = box({0, 0, 0}, {1, 1, 1});
  bad.vertices[3].z = std::nan("");
  EXPECT_NE(geom::unfit_as_solid(bad), "");
}

TEST(Boolean, TurnsAnInsideOutSolidBack) {
  Mesh inward = box({0, 0, 0}, {1, 1, 1});
  geom::flip(inward);
  const Solid s = geom::subtract(box({-1, -1, -1}, {2, 2, 2}), inward);
  ASSERT_TRUE(s.ok) << s.reason;
  EXPECT_NEAR(s.volume, 26, 1e-12);
}

// |A| + |B| = |A ∪ B| + |A ∩ B| and |A − B| = |A| − |A ∩ B| for shapes without closed forms.
TEST(Boolean, KeepsTheBooksForLumpyStones) {
  const Mesh a = stone({0, 0, 0}, 1.0, 0.2, 12);
  const Mesh b = stone({0.7, 0.3, 0.2}, 0.8, -0.25, 10);
  const double va = geom::signed_volume(a);
  const double vb = geom::signed_volume(b);
  const double common = geom::common_part(a, b).volume;
  EXPECT_GT(common, 0.1);
  EXPECT_NEAR(geom::unite({a, b}).volume, va + vb - common, 1e-12);
  EXPECT_NEAR(geom::subtract(a, b).volume, va - common, 1e-12);
}

}  // namespace
}  // namespace hummock
