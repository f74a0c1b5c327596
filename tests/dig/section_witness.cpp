// The fast search against two slow ones that share nothing with it: every pair of a dense set of
// points, and a fine grid.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <queue>
#include <random>

#include "engine/dig/section/section_paths.h"
#include "geometry/plan/polygon.h"

namespace hummock::dig {
namespace {

constexpr double kReach = 2.6;

struct Case {
  VerticalSection section;
  double max_depth = std::numeric_limits<double>::infinity();
  double footing = 0.0;  // half its width
};

double uniform(std::mt19937_64& random, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
}

GroundLine random_ground(std::mt19937_64& random) {
  GroundLine ground;
  const double tilt = uniform(random, -0.3, 0.3);
  for (double x = -kReach; x < kReach + 0.01; x += 0.26) {
    const double at = std::abs(x) < 1e-9 ? 0.0 : x;
    ground.push_back({at, tilt * at + uniform(random, -0.12, 0.12)});
  }
  return ground;
}

void add_apron(std::mt19937_64& random, const GroundLine& ground, double side,
               std::vector<Piece>& pieces) {
  const double depth = random() % 4 == 0 ? 0.0 : uniform(random, 0.05, 0.4);
  const double len = uniform(random, 0.2, 0.9);
  const Vec2 a{0.0, height_on(ground, 0.0) - depth};
  const Vec2 b{side * len, height_on(ground, side * len) - depth - uniform(random, 0.0, 0.1)};
  pieces.push_back({a, b, kApron});
}

// Skirt, perhaps aprons on either side, a footing, and a stray piece.
Case random_case(std::mt19937_64& random) {
  Case c;
  c.section.ground = random_ground(random);
  const double top = height_on(c.section.ground, 0.0);
  auto& pieces = c.section.pieces;
  pieces.push_back({{0.0, top + 1.0}, {0.0, top}, kPanel});
  if (random() % 5 != 0) {
    pieces.push_back({{0.0, top}, {0.0, top - uniform(random, 0.1, 0.8)}, kSkirt});
  }
  if (random() % 2 == 0) add_apron(random, c.section.ground, 1.0, pieces);
  if (random() % 2 == 0) add_apron(random, c.section.ground, -1.0, pieces);
  if (random() % 3 == 0) {
    const double w = uniform(random, 0.05, 0.15);
    const double foot = top - uniform(random, 0.2, 0.5);
    const Vec2 a{-w, top + 0.3}, b{-w, foot}, d{w, foot}, e{w, top + 0.3};
    pieces.insert(pieces.end(),
                  {{a, b, kFooting}, {b, d, kFooting}, {d, e, kFooting}, {e, a, kFooting}});
    c.footing = w;
  }
  if (random() % 3 == 0) {
    const Vec2 a{uniform(random, -1, 1), top - uniform(random, 0.3, 1.0)};
    pieces.push_back({a, a + Vec2{uniform(random, -0.6, 0.6), uniform(random, -0.4, 0.4)}, kSkirt});
  }
  if (random() % 3 == 0) c.section.rock = lowered(c.section.ground, uniform(random, 0.5, 1.2));
  if (random() % 3 == 0) c.max_depth = uniform(random, 0.5, 1.0);
  return c;
}

// Is the leg free, straight from the definition? Touching a piece counts as crossing it.
bool leg_clear(const VerticalSection& s, double max_depth, Vec2 a, Vec2 b) {
  for (const Piece& p : s.pieces) {
    if (geom::segments_meet(a, b, p.a, p.b)) return false;
  }
  const double step = 0.01;
  const int n = 1 + static_cast<int>(geom::distance(a, b) / step);
  for (int k = 0; k <= n; ++k) {
    const Vec2 p = lerp(a, b, static_cast<double>(k) / n);
    const double ground = height_on(s.ground, p.x);
    if (p.y > ground + 1e-6 || p.y < ground - max_depth - 1e-6) return false;
    if (!s.rock.empty() && p.y < height_on(s.rock, p.x) - 1e-6) return false;
  }
  return true;
}

struct DensePoints {
  std::vector<Vec2> at;
  std::vector<int> bank;  // 1 inside, −1 outside, 0 in the soil
};

// Points round every end and crossing of pieces, on the surface, and on the floor.
DensePoints dense_points(const Case& c) {
  constexpr double kNear = 4e-4;
  DensePoints points;
  std::vector<Vec2> centres;
  const auto& pieces = c.section.pieces;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    centres.push_back(pieces[i].a);
    centres.push_back(pieces[i].b);
  }
  for (const Vec2& centre : centres) {
    for (int k = 0; k < 12; ++k) {
      const double t = (k + 0.37) * geom::kPi / 6.0;
      points.at.push_back(centre + Vec2{std::cos(t), std::sin(t)} * kNear);
      points.bank.push_back(0);
    }
  }
  for (double x = -kReach + 0.005; x < kReach; x += 0.02) {
    if (std::abs(x) <= c.footing) continue;
    points.at.push_back({x, height_on(c.section.ground, x) - 1e-7});
    points.bank.push_back(x > 0 ? 1 : -1);
  }
  for (const double x : {c.footing + 1e-4, -c.footing - 1e-4}) {
    points.at.push_back({x, height_on(c.section.ground, x) - 1e-7});
    points.bank.push_back(x > 0 ? 1 : -1);
  }
  for (const Vec2& v : c.section.ground) {
    double floor = v.y - c.max_depth;
    if (!c.section.rock.empty()) floor = std::max(floor, height_on(c.section.rock, v.x));
    if (floor < -1e9) continue;
    points.at.push_back({v.x, floor});
    points.bank.push_back(0);
  }
  return points;
}

double dense_shortest(const Case& c) {
  const DensePoints p = dense_points(c);
  const std::size_t n = p.at.size();
  std::vector<double> dist(n, 1e300);
  std::vector<char> done(n, 0);
  for (std::size_t k = 0; k < n; ++k) {
    if (p.bank[k] == 1) dist[k] = 0.0;
  }
  for (;;) {
    std::size_t at = n;
    for (std::size_t k = 0; k < n; ++k) {
      if (done[k] == 0 && dist[k] < 1e299 && (at == n || dist[k] < dist[at])) at = k;
    }
    if (at == n) return 1e300;
    if (p.bank[at] == -1) return dist[at];
    done[at] = 1;
    for (std::size_t k = 0; k < n; ++k) {
      const double through = dist[at] + geom::distance(p.at[at], p.at[k]);
      if (done[k] == 0 && through < dist[k] &&
          leg_clear(c.section, c.max_depth, p.at[at], p.at[k])) {
        dist[k] = through;
      }
    }
  }
}

TEST(SectionWitness, the_shortest_tunnel_is_that_of_all_pairs_of_dense_points) {
  const std::uint64_t seed = 20240611;
  std::mt19937_64 random(seed);
  int open = 0;
  for (int trial = 0; trial < 250; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Case c = random_case(random);
    const SectionPaths paths(c.section);
    const Tunnel tunnel = paths.shortest(c.max_depth);
    const double slow = dense_shortest(c);
    EXPECT_EQ(tunnel.open, slow < 1e299);
    if (!tunnel.open) continue;
    ++open;
    // The dense points stand 0.4 mm off the pieces and 20 mm apart on the ground: together the
    // witness is up to a centimetre too long, never too short.
    EXPECT_LE(tunnel.length, slow + 1e-5);
    EXPECT_GE(tunnel.length, slow - 0.012);
    EXPECT_LE(tunnel.depth, c.max_depth + 1e-9);
  }
  EXPECT_GT(open, 120);
}

// Least of the greatest depth, on a grid of h with moves to the eight neighbours.
double grid_least_depth(const Case& c, double h) {
  const VerticalSection& s = c.section;
  const int nx = static_cast<int>(2.0 * kReach / h);
  const int ny = static_cast<int>(1.6 / h);  // rows: depth below the ground above
  const auto at = [&](int i, int j) {
    const double x = -kReach + (i + 0.5) * h;
    return Vec2{x, height_on(s.ground, x) - (j + 0.01) * h};
  };
  const auto free = [&](Vec2 a, Vec2 b) {
    if (!s.rock.empty() && b.y < height_on(s.rock, b.x)) return false;
    return std::none_of(s.pieces.begin(), s.pieces.end(),
                        [&](const Piece& p) { return geom::segments_meet(a, b, p.a, p.b); });
  };
  std::vector<double> least(static_cast<std::size_t>(nx * ny), 1e300);
  using Item = std::pair<double, int>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> queue;
  for (int i = 0; i < nx; ++i) {
    if (at(i, 0).x > c.footing) {
      least[static_cast<std::size_t>(i)] = 0.0;
      queue.emplace(0.0, i);
    }
  }
  while (!queue.empty()) {
    const auto [d, k] = queue.top();
    queue.pop();
    if (d > least[static_cast<std::size_t>(k)]) continue;
    const int i = k % nx, j = k / nx;
    if (j == 0 && at(i, 0).x < -c.footing) return d;
    for (int q = 0; q < 9; ++q) {
      const int ii = i + q % 3 - 1, jj = j + q / 3 - 1;
      if (ii < 0 || jj < 0 || ii >= nx || jj >= ny) continue;
      const double depth = std::max(d, jj * h);
      double& best = least[static_cast<std::size_t>(jj) * static_cast<std::size_t>(nx) +
                           static_cast<std::size_t>(ii)];
      if (depth < best && free(at(i, j), at(ii, jj))) {
        best = depth;
        queue.emplace(depth, jj * nx + ii);
      }
    }
  }
  return 1e300;
}

TEST(SectionWitness, the_least_depth_is_that_of_a_fine_grid) {
  const std::uint64_t seed = 77;
  std::mt19937_64 random(seed);
  const double h = 0.01;
  int open = 0;
  for (int trial = 0; trial < 200; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Case c = random_case(random);
    const SectionPaths paths(c.section);
    const double slow = grid_least_depth(c, h);
    if (slow > 1e299) {
      // The grid loses ways narrower than its cells.
      EXPECT_TRUE(paths.least_depth() > 1e299 || !c.section.rock.empty());
      continue;
    }
    ++open;
    EXPECT_LE(paths.least_depth(), slow + h);
    EXPECT_GE(paths.least_depth(), slow - 4.0 * h);
  }
  EXPECT_GT(open, 100);
}

TEST(SectionWitness, a_deeper_skirt_never_shortens_the_tunnel) {
  const std::uint64_t seed = 5;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 200; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    Case c = random_case(random);
    const double top = height_on(c.section.ground, 0.0);
    double last_length = 0.0, last_depth = 0.0;
    for (double depth = 0.1; depth < 1.0; depth += 0.15) {
      VerticalSection s = c.section;
      s.rock.clear();
      s.pieces.push_back({{0.0, top}, {0.0, top - depth}, kSkirt});
      const SectionPaths paths(s);
      const Tunnel tunnel = paths.shortest();
      ASSERT_TRUE(tunnel.open);
      EXPECT_GE(tunnel.length, last_length - 1e-6);
      EXPECT_GE(paths.least_depth(), last_depth - 1e-9);
      EXPECT_GE(tunnel.depth, paths.least_depth() - 1e-6);
      last_length = tunnel.length;
      last_depth = paths.least_depth();
    }
  }
}

TEST(SectionWitness, inside_and_outside_are_alike) {
  const std::uint64_t seed = 9;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 200; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Case c = random_case(random);
    VerticalSection turned = c.section;
    const auto flip = [](Vec2& p) { p.x = -p.x; };
    for (GroundLine* line : {&turned.ground, &turned.rock}) {
      std::for_each(line->begin(), line->end(), flip);
      std::reverse(line->begin(), line->end());
    }
    for (Piece& p : turned.pieces) {
      flip(p.a);
      flip(p.b);
      std::swap(p.a, p.b);
    }
    const Tunnel one = SectionPaths(c.section).shortest(c.max_depth);
    const Tunnel other = SectionPaths(turned).shortest(c.max_depth);
    EXPECT_EQ(one.open, other.open);
    EXPECT_NEAR(one.length, other.length, 1e-9);
  }
}

}  // namespace
}  // namespace hummock::dig
