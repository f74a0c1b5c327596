// A roof that cannot be one is refused, with the line it stands in.
#include <gtest/gtest.h>

#include "tests/support/yard.h"

namespace hummock {
namespace {

TEST(Roof, BelowTheGroundIsRefused) {
  Site site = test::yard(4, 4, 2.0);
  site.roof = Roof{};
  site.roof->kind = SheetKind::solid;
  site.roof->height = -3.0;
  EXPECT_THROW(test::built(site), InputError);
  site.roof->height = 2.0;
  EXPECT_NO_THROW(test::built(site));
}

TEST(Roof, WhollyOutsideTheBoundaryIsRefused) {
  Site site = test::yard(4, 4, 2.0);
  site.roof = Roof{};
  site.roof->kind = SheetKind::solid;
  site.roof->height = 2.0;
  site.roof->outline = Polygon{{10, 10}, {12, 10}, {12, 12}, {10, 12}};
  EXPECT_THROW(test::built(site), InputError);
  site.roof->outline = Polygon{{-1, -1}, {5, -1}, {5, 5}, {-1, 5}};
  EXPECT_NO_THROW(test::built(site));
}

}  // namespace
}  // namespace hummock
