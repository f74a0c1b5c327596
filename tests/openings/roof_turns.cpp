// Roofs of an outline of their own over fences of unequal height: turned, mirrored and shifted
// yards are told alike, and none less than samples of the definition.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include "engine/openings/openings.h"
#include "geometry/plan/polygon.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

double between(std::mt19937_64& random, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
}

double one_of(std::mt19937_64& random, std::initializer_list<double> values) {
  return values.begin()[random() % values.size()];
}

// Four sides, square or askew, each of a height of its own; the roof stands back alike or not.
Site roofed(std::mt19937_64& random) {
  const double width = between(random, 3.5, 6.0), depth = between(random, 3.5, 5.5);
  Site site = test::yard(width, depth, 2.0);
  site.ground.cell = 0.2;
  geom::Polygon& outline = site.boundary.outline;
  if (random() % 2 == 0) {
    outline[2] = outline[2] + Vec2{between(random, -0.4, 0.8), between(random, -0.3, 0.3)};
    outline[1].y += between(random, -0.5, 0.5);
  }
  test::split_sections(site);
  for (Section& s : site.boundary.sections) {
    s.height = between(random, 1.5, 2.2);
    s.panel = one_of(random, {1.0, 1.3, 2.0});
    if (random() % 2 == 0) s.fit = Fit::stepped;
  }
  site.roof = Roof{};
  site.roof->kind = SheetKind::mesh;
  site.roof->aperture = 0.02;
  site.roof->above_fence = one_of(random, {0.0, 0.05, 0.2});
  site.roof->sag = one_of(random, {0.0, 0.1});
  const double in_x = one_of(random, {0.0, 0.03, 0.05, 0.3});
  const double in_y = one_of(random, {in_x, in_x, 0.1});
  const Vec2 middle{0.5 * width, 0.5 * depth};
  site.roof->outline = outline;
  for (Vec2& p : *site.roof->outline) {
    p.x += p.x < middle.x ? in_x : -in_x;
    p.y += p.y < middle.y ? in_y : -in_y;
  }
  return site;
}

Site moved(Site site, const std::function<Vec2(Vec2)>& to) {
  for (Vec2& p : site.boundary.outline) p = to(p);
  for (Vec2& p : *site.roof->outline) p = to(p);
  return site;
}

Vec2 turned(Vec2 p, double degrees) {
  const double angle = degrees * geom::kDegree;
  return {p.x * std::cos(angle) - p.y * std::sin(angle),
          p.x * std::sin(angle) + p.y * std::cos(angle)};
}

double at_the_roof(const Model& model) {
  double most = 0.0;
  for (const Opening& o : analyse(model).list) {
    if (o.what == "roof edge") most = std::max(most, o.ball_m);
  }
  return most;
}

TEST(RoofTurns, a_turned_mirrored_or_shifted_yard_is_told_alike) {
  const std::uint64_t seed = 4401;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 30; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Site site = roofed(random);
    const double ball = at_the_roof(test::built(site));
    const auto told = [&](const std::function<Vec2(Vec2)>& to) {
      return at_the_roof(test::built(moved(site, to)));
    };
    const double within = 0.02 * ball + 0.002;  // the facets lie otherwise
    EXPECT_NEAR(told([](Vec2 p) { return Vec2{-p.x, p.y}; }), ball, within);
    EXPECT_NEAR(told([](Vec2 p) { return turned(p, 90.0); }), ball, within);
    EXPECT_NEAR(told([](Vec2 p) { return turned(p, 180.0); }), ball, within);
    EXPECT_NEAR(told([](Vec2 p) { return turned(p, 37.0); }), ball, within);
    EXPECT_NEAR(told([](Vec2 p) { return p + Vec2{123.4, -56.7}; }), ball, within);
  }
}

// How far the roof's edge is above the top of what stands nearest, at every few millimetres of it.
double sampled_above(const Model& model) {
  const geom::Polygon& rim = *model.site.roof->outline;
  double most = 0.0;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::roof) continue;
    for (const geom::Triangle& t : part.mesh.triangles) {
      for (std::size_t k = 0; k < 3; ++k) {
        const Vec3 a = part.mesh.vertices[t[k]], b = part.mesh.vertices[t[(k + 1) % 3]];
        if (geom::distance_to_edges(rim, xy(lerp(a, b, 0.5))) > 1e-6) continue;
        const int n = 1 + static_cast<int>(geom::distance(xy(a), xy(b)) / 0.004);
        for (int i = 0; i <= n; ++i) {
          const Vec3 p = lerp(a, b, static_cast<double>(i) / n);
          double nearest = 1e300, top = 0.0;
          for (const Panel& panel : model.panels) {
            const Vec2 d = panel.b - panel.a;
            const double s = std::clamp(dot(xy(p) - panel.a, d) / dot(d, d), 0.0, 1.0);
            const double off = geom::distance(xy(p), lerp(panel.a, panel.b, s));
            if (off >= nearest) continue;
            nearest = off;
            top = panel.top_a + (panel.top_b - panel.top_a) * s;
          }
          most = std::max(most, p.z - top);
        }
      }
    }
  }
  return most;
}

TEST(RoofTurns, none_is_told_less_than_samples_along_the_edge) {
  const std::uint64_t seed = 4402;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 30; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Model model = test::built(roofed(random));
    EXPECT_GE(at_the_roof(model) + 1e-4, sampled_above(model));
  }
}

}  // namespace
}  // namespace hummock::openings
