// Shade: the fast path against packets of rays, the year against days, and the exponents.
//
// Invented yards. Ratios are of one run; the machine's load moves the seconds.
#include "engine/shade/shade.h"

#include <benchmark/benchmark.h>

#include <chrono>
#include <cmath>
#include <random>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/over_tiles.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

using Clock = std::chrono::steady_clock;

// An open square yard `side` metres wide: gentle relief, a mesh fence on posts, boulders of
// `facets` around, trees.
Model open_yard(double side, double cell, unsigned facets, int boulders, int trees) {
  Model m = yard(
      0, 0, side, side, cell,
      [](double x, double y) {
        return 0.5 * std::sin(0.21 * x) * std::cos(0.17 * y) + 0.08 * std::sin(1.1 * x + 0.7 * y);
      },
      1.0);
  const geom::Polygon o = rectangle(-0.013, -0.013, side + 0.013, side + 0.013);
  for (std::size_t e = 0; e < 4; ++e) {
    const int panels = static_cast<int>(side / 2.0);
    for (int p = 0; p < panels; ++p) {
      const Vec2 a = lerp(o[e], o[(e + 1) % 4], static_cast<double>(p) / panels);
      const Vec2 b = lerp(o[e], o[(e + 1) % 4], (p + 1.0) / panels);
      as_mesh(add_wall(m, "panel", a, b, -0.6, 2.44), 0.025, 0.003);
      add_part(m, "post", PartKind::post,
               box_mesh({a.x - 0.03, a.y - 0.03, -0.6}, {a.x + 0.03, a.y + 0.03, 2.5}));
    }
  }
  std::mt19937 random(5);
  std::uniform_real_distribution<double> place(1.0, side - 1.0), size(0.3, 0.9);
  for (int k = 0; k < boulders; ++k) {
    add_solid(m, "boulder",
              ellipsoid({place(random), place(random), 0.1},
                        {size(random), size(random), size(random)}, facets));
  }
  for (int k = 0; k < trees; ++k) {
    const Vec3 at{place(random), place(random), 0};
    add_part(m, "crown", PartKind::crown, ellipsoid(at + Vec3{0, 0, 4}, {1.8, 1.8, 1.6}, 24))
        .leaf_density = 0.9;
    add_solid(m, "trunk", box_mesh(at + Vec3{-0.12, -0.12, -1}, at + Vec3{0.12, 0.12, 3}));
  }
  return m;
}

template <class F>
double best_of(int times, F f) {
  double best = 1e300;
  for (int k = 0; k < times; ++k) {
    const auto start = Clock::now();
    f();
    best = std::min(best, std::chrono::duration<double>(Clock::now() - start).count());
  }
  return best;
}

struct Timing {
  double fast = 0, rays = 0, packets = 0, nodes = 0;
};

// Seconds for one sun by the fast path, by the reference, and by packets alone against everything
// as if it were opaque (what the rays cost at their cheapest).
Timing time_one_sun(const Model& m, const SunRay& sun, int times) {
  const FastBeam fast(m);
  const std::vector<Tile> tiles = ground_tiles(m, m.ground.grid);
  Model solid = m;
  for (Part& p : solid.parts) {
    p.openness = 0.0;
    p.leaf_density = 0.0;
    p.kind = PartKind::object;
  }
  const std::vector<Caster> solid_casters = casters_of(solid);
  const RayBeam packets(solid, solid_casters, std::vector<bool>(solid_casters.size(), false));
  Timing t;
  for (const Tile& tile : tiles) t.nodes += tile.count;
  const sun::Date date{2026, 6, 21};
  const auto run = [&](const auto& work) {
    return best_of(times, [&] { over_tiles(tiles.size(), {}, "", 0, 1, work, tiles.size()); });
  };
  std::array<float, kTileNodes> warm{};
  fast.rays().tile(tiles[0], sun, date, warm);
  packets.tile(tiles[0], sun, date, warm);
  t.fast = run([&](std::size_t k) {
    TileBeam b;
    fast.tile(tiles[k], sun, date, b);
    benchmark::DoNotOptimize(b);
  });
  t.rays = run([&](std::size_t k) {
    std::array<float, kTileNodes> b{};
    fast.rays().tile(tiles[k], sun, date, b);
    benchmark::DoNotOptimize(b);
  });
  t.packets = run([&](std::size_t k) {
    std::array<float, kTileNodes> b{};
    packets.tile(tiles[k], sun, date, b);
    benchmark::DoNotOptimize(b);
  });
  return t;
}

void one_sun(benchmark::State& state) {
  const Model m = open_yard(60, 0.1, 32, 20, 8);
  const SunRay sun = sun_ray(sun_at(230, static_cast<double>(state.range(0))).towards);
  for (auto _ : state) {
    const Timing t = time_one_sun(m, sun, 3);
    state.counters["fast_Mcells_s"] = t.nodes / t.fast / 1e6;
    state.counters["packets_Mcells_s"] = t.nodes / t.packets / 1e6;
    state.counters["fast_over_packets"] = t.packets / t.fast;
    state.counters["fast_over_reference"] = t.rays / t.fast;
  }
}
BENCHMARK(one_sun)->Arg(10)->Arg(25)->Arg(60)->Iterations(1)->Unit(benchmark::kMillisecond);

// Exponents: seconds against cells, and against triangles of the stones at the same cells.
void exponents(benchmark::State& state) {
  const SunRay sun = sun_ray(sun_at(230, 30).towards);
  for (auto _ : state) {
    double cells[2], by_cells[2], by_triangles[2], triangles[2];
    for (int k = 0; k < 2; ++k) {
      const Model m = open_yard(40, k == 0 ? 0.2 : 0.05, 32, 10, 4);
      const Timing t = time_one_sun(m, sun, 3);
      cells[k] = t.nodes;
      by_cells[k] = t.fast;
      const Model n = open_yard(40, 0.1, k == 0 ? 32 : 128, 10, 4);
      by_triangles[k] = time_one_sun(n, sun, 3).fast;
      triangles[k] = 0;
      for (const Part& p : n.parts) triangles[k] += static_cast<double>(p.mesh.triangles.size());
    }
    state.counters["in_cells"] =
        std::log(by_cells[1] / by_cells[0]) / std::log(cells[1] / cells[0]);
    state.counters["in_triangles"] =
        std::log(by_triangles[1] / by_triangles[0]) / std::log(triangles[1] / triangles[0]);
  }
}
BENCHMARK(exponents)->Iterations(1)->Unit(benchmark::kMillisecond);

// A day, a year, and what each further day of the year costs against the first by itself.
void year_against_day(benchmark::State& state) {
  const auto side = static_cast<double>(state.range(0));
  const Model m = open_yard(side, 0.1, 32, static_cast<int>(side / 3), static_cast<int>(side / 8));
  Settings settings;
  for (auto _ : state) {
    const auto start = Clock::now();
    benchmark::DoNotOptimize(analyse(m, settings));
    const auto between = Clock::now();
    benchmark::DoNotOptimize(year(m, settings));
    const double day_s = std::chrono::duration<double>(between - start).count();
    const double year_s = std::chrono::duration<double>(Clock::now() - between).count();
    state.counters["day_s"] = day_s;
    state.counters["year_s"] = year_s;
    state.counters["further_day_over_first"] = year_s / 365.0 / day_s;
  }
}
BENCHMARK(year_against_day)->Arg(12)->Arg(100)->Iterations(1)->Unit(benchmark::kSecond);

}  // namespace
}  // namespace hummock::shade

BENCHMARK_MAIN();
