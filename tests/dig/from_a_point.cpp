// What a burrow leaves to dig where the ground falls and rises again before the fence: the tunnel
// passes below the notch; and where it ends in a mound whose foot is before the fence, with a skirt
// or with nothing buried. Against a walk over a fine grid, which shares nothing with the search.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <queue>
#include <random>
#include <string>

#include "engine/dig/dig.h"
#include "engine/dig/section/section_paths.h"
#include "geometry/plan/polygon.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

struct Notched {
  VerticalSection section;
  Vec2 start;
  double top = 0.0;  // m, of the ground
};

// A bare skirt, a ditch of straight sides between it and the end of a burrow.
Notched random_notch(std::mt19937_64& random) {
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  Notched n;
  const double skirt = between(0.6, 1.2);
  const double left = between(0.2, 0.5), bottom = left + between(0.1, 0.3);
  const double bed = bottom + between(0.05, 0.3), right = bed + between(0.1, 0.3);
  const double x = right + between(0.1, 0.5);
  const double deep = between(0.4, 1.4);
  n.section.ground = {
      {-2.0, 0.0},  {0.0, 0.0}, {left, 0.0}, {bottom, -deep}, {bed, -deep - between(-0.1, 0.1)},
      {right, 0.0}, {2.2, 0.0}};
  n.section.pieces = {{{0.0, 1.0}, {0.0, 0.0}, kPanel}, {{0.0, 0.0}, {0.0, -skirt}, kSkirt}};
  n.start = {x, -between(0.3, 1.3)};
  return n;
}

// A mound before a fence with a skirt or with nothing buried, the end of a burrow in it or below.
Notched random_mound(std::mt19937_64& random) {
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  Notched n;
  const double foot = between(0.05, 0.7), crest = foot + between(0.1, 0.4);
  const double far = crest + between(0.1, 0.4);
  n.top = between(0.2, 0.9);
  n.section.ground = {{-2.0, 0.0},    {0.0, 0.0},         {foot, 0.0},
                      {crest, n.top}, {far, 0.9 * n.top}, {2.2, between(0.0, 0.3)}};
  n.section.pieces = {{{0.0, 1.0}, {0.0, 0.0}, kPanel}};
  if (random() % 2 == 0)
    n.section.pieces.push_back({{0.0, 0.0}, {0.0, -between(0.02, 0.8)}, kSkirt});
  n.start.x = between(crest - 0.05, far);
  n.start.y = height_on(n.section.ground, n.start.x) - between(0.02, n.top + 0.5);
  return n;
}

// The shortest walk over points h apart, each joined to those within three rows and columns: no
// shorter than the tunnel, and longer by 1.4 % and a few h at most.
double walked(const Notched& n, double h) {
  const int nx = static_cast<int>(std::round(4.0 / h));
  const int ny = static_cast<int>(std::round((n.top + 1.8) / h));
  const auto at = [&](int k) {
    const int column = k % nx, row = k / nx;
    return Vec2{-1.8 + (column + 0.37) * h, n.top - (row + 0.41) * h};
  };
  const auto ground = [&](Vec2 p) { return height_on(n.section.ground, p.x); };
  const auto free = [&](Vec2 p, Vec2 q) {
    if (!stays_below(n.section.ground, p, q, 0.0)) return false;
    return n.section.pieces.size() < 2 ||
           !geom::segments_meet(p, q, n.section.pieces[1].a, n.section.pieces[1].b);
  };
  std::vector<double> least(static_cast<std::size_t>(nx * ny), 1e300);
  using Item = std::pair<double, int>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> queue;
  const auto offer = [&](int k, double length) {
    if (length >= least[static_cast<std::size_t>(k)]) return;
    least[static_cast<std::size_t>(k)] = length;
    queue.emplace(length, k);
  };
  for (int k = 0; k < nx * ny; ++k) {
    const double length = geom::distance(n.start, at(k));
    if (length < 3.0 * h && free(n.start, at(k))) offer(k, length);
  }
  double best = 1e300;
  while (!queue.empty() && queue.top().first < best) {
    const auto [length, k] = queue.top();
    queue.pop();
    if (length > least[static_cast<std::size_t>(k)]) continue;
    const Vec2 p = at(k);
    if (p.x < 0.0) best = std::min(best, length + ground(p) - p.y);
    for (int di = -3; di <= 3; ++di) {
      for (int dj = -3; dj <= 3; ++dj) {
        const int i = k % nx + di, j = k / nx + dj;
        if (i < 0 || j < 0 || i >= nx || j >= ny) continue;
        const int to = j * nx + i;
        if (free(p, at(to))) offer(to, length + geom::distance(p, at(to)));
      }
    }
  }
  return best;
}

// How many of the tunnels bend more than once.
int bent_of(Notched (*random_of)(std::mt19937_64&), std::uint64_t seed, int trials) {
  std::mt19937_64 random(seed);
  constexpr double kSpacing = 0.02;  // m
  int bent = 0;
  for (int trial = 0; trial < trials; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Notched n = random_of(random);
    const double walk = walked(n, kSpacing);
    const Tunnel tunnel = SectionPaths(n.section).shortest_from(n.start);
    EXPECT_TRUE(tunnel.open);
    if (!tunnel.open) continue;
    EXPECT_LE(tunnel.length, walk + 1e-9);
    EXPECT_GE(tunnel.length, walk / 1.014 - 3.0 * kSpacing);
    for (std::size_t k = 1; k < tunnel.path.size(); ++k) {
      EXPECT_TRUE(stays_below(n.section.ground, tunnel.path[k - 1], tunnel.path[k], 1e-6));
    }
    bent += tunnel.path.size() > 3 ? 1 : 0;
  }
  return bent;
}

TEST(FromAPoint, ATunnelPassesBelowANotchAsAWalkOverAGridDoes) {
  EXPECT_GT(bent_of(random_notch, 3107, 60), 20);
}

TEST(FromAPoint, ATunnelOutOfAMoundIsAsShortAsAWalkOverAGrid) {
  EXPECT_GT(bent_of(random_mound, 3108, 80), 5);
}

// A pit of 1.75 m between a burrow 1.9 m deep and a skirt of 1.5 m: the straight way to the skirt's
// foot would come out in the pit.
TEST(FromAPoint, ABurrowBehindAPitLeadsOut) {
  Site site = test::yard(6.0, 6.0, 2.0, SheetKind::solid);
  site.boundary.sections[0].buried = 1.5;
  site.species.dig_depth.value = 0.5;
  site.species.dig_length.value = 4.0;
  GroundForm pit;
  pit.kind = FormKind::hollow;
  pit.at = {3.0, 0.9};
  pit.radius = 0.6;
  pit.height = 1.75;
  site.ground.forms.push_back(pit);
  Burrow burrow;
  burrow.name = "old burrow";
  burrow.mouth = {3.0, 1.7};
  burrow.depth = 1.9;
  site.burrows.push_back(burrow);
  const Result r = analyse(test::built(site));
  ASSERT_EQ(r.burrows.size(), 1U);
  EXPECT_FALSE(r.burrows[0].within);
  // From the burrow's bottom 1.9 m down to the pit's, 1.75, to the skirt's foot, 1.5, and up.
  const double straight = std::hypot(1.7, 0.4) + 1.5;
  ASSERT_TRUE(r.burrows[0].left_to_dig_m.has_value());
  EXPECT_GE(*r.burrows[0].left_to_dig_m, straight - 0.05);
  EXPECT_LE(*r.burrows[0].left_to_dig_m, straight + 0.05);
}

}  // namespace
}  // namespace hummock::dig
