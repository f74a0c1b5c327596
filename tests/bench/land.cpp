// Sight, water, earthworks, quantities and the viewshed on square yards of 25 to 100 m a side
// (100 m = a hectare) at 10 cm: rolling ground with hollows, a mesh fence with a glass front, two
// viewing places, stones, trees, plantings and a pool in proportion to the area.
//
// One run prints, after the table, each one's exponent against the area (1 = linear), and for the
// viewshed GDAL's time on the same ground over ours, wall clock and processor time both, with how
// many nodes the two judge otherwise. GDAL's is single-threaded; ours uses what threads there are.
#include <benchmark/benchmark.h>
#include <tbb/global_control.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <map>
#include <string>

#include "engine/earthworks/earthworks.h"
#include "engine/quantities/quantities.h"
#include "engine/sight/sight.h"
#include "engine/water/water.h"
#include "geometry/mesh/prism_volume.h"
#include "geometry/terrain/depression_fill.h"
#include "geometry/terrain/viewshed.h"
#include "tests/support/gdal_viewshed.h"
#include "tests/support/yard.h"

namespace {

using namespace hummock;

void furnish(Site& site, double side) {
  const int things = static_cast<int>(side * side / 100.0);
  const auto place = [&](int k, double step) {
    return Vec2{2.0 + std::fmod(k * 7.31 * step, side - 4.0),
                2.0 + std::fmod(k * 3.77 * step, side - 4.0)};
  };
  for (int k = 0; k < things; ++k) {
    test::add_mound(site, place(k, 1.0), 3.0, 0.3 + 0.05 * (k % 9));
    GroundForm hollow;
    hollow.kind = FormKind::hollow;
    hollow.at = place(k, 1.7);
    hollow.radius = 2.0;
    hollow.height = 0.15 + 0.02 * (k % 7);
    site.ground.forms.push_back(hollow);
    if (k % 2 == 0)
      test::add_boulder(site, "stone " + std::to_string(k), place(k, 2.3), {1.2, 1.0, 0.8},
                        static_cast<std::uint32_t>(k));
    if (k % 4 == 0)
      test::add_tree(site, "tree " + std::to_string(k), place(k, 3.1), 2.0, {2, 2, 2}, 1.2);
  }
}

Site rolling(double side) {
  Site site = test::yard(side, side, 2.5);
  site.ground.margin = 3.0;
  test::split_sections(site);
  site.boundary.sections[0].kind = SheetKind::glass;
  site.boundary.sections[0].aperture = 0.0;
  furnish(site, side);
  for (const int edge : {0, 3}) {
    Viewing v;
    v.name = "place " + std::to_string(edge);
    v.edge = edge;
    v.from = 0.4 * side;
    v.width = 5.0;
    site.viewings.push_back(v);
  }
  Water pool;
  pool.name = "pool";
  const double a = 0.3 * side, b = 0.3 * side + 0.15 * side;
  pool.outline = {{a, a}, {b, a}, {b, b}, {a, b}};
  pool.depth = 0.6;
  site.waters.push_back(pool);
  return site;
}

const Model& model_of(int side) {
  static std::map<int, Model> models;
  const auto it = models.find(side);
  if (it != models.end()) return it->second;
  return models.emplace(side, test::built(rolling(side))).first->second;
}

double wall() {
  const auto now = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double>(now).count();
}
double processor() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

struct Best {
  double wall = 1e300, cpu = 1e300;
};
std::map<std::string, std::map<int, Best>> best;  // name → side

template <class Run>
void time_one(Best& b, const Run& run) {
  const double w = wall(), c = processor();
  benchmark::DoNotOptimize(run());
  b.wall = std::min(b.wall, wall() - w);
  b.cpu = std::min(b.cpu, processor() - c);
}

template <class Run>
void measure(benchmark::State& state, const char* name, const Run& run) {
  const int side = static_cast<int>(state.range(0));
  const Model& model = model_of(side);
  for (auto _ : state) time_one(best[name][side], [&] { return run(model); });
}

void sight_of_guests(benchmark::State& s) {
  measure(s, "sight", [](const Model& m) { return sight::analyse(m).seen_share; });
}
void water_and_ponds(benchmark::State& s) {
  measure(s, "water", [](const Model& m) { return water::analyse(m).ponding_m; });
}
void earth_moved(benchmark::State& s) {
  measure(s, "earthworks", [](const Model& m) { return earthworks::analyse(m).cut_m3; });
}
void schedule(benchmark::State& s) {
  measure(s, "quantities", [](const Model& m) { return quantities::schedule(m).size(); });
}
void depression_fill(benchmark::State& s) {
  measure(s, "depression fill",
          [](const Model& m) { return geom::fill_depressions(m.ground).back(); });
}
void prisms(benchmark::State& s) {
  measure(s, "prisms",
          [](const Model& m) { return geom::prism_sums(m.ground, m.surveyed).above_m3; });
}

std::map<int, double> differ;  // share of nodes judged otherwise than GDAL

void viewshed_and_gdal(benchmark::State& state) {
  const int side = static_cast<int>(state.range(0));
  const geom::Heightfield& ground = model_of(side).ground;
  const tests::GdalGround gdal(ground);
  const int i = ground.grid.nx / 2, j = ground.grid.ny / 2;
  const Vec3 eye = at_height(ground.grid.node(i, j), ground.at(i, j) + 1.5);
  geom::Raster need;
  std::vector<unsigned char> seen;
  for (auto _ : state) {
    time_one(best["viewshed"][side], [&] {
      need = geom::least_visible_height(ground, eye);
      return need.values.back();
    });
    time_one(best["GDAL viewshed"][side], [&] {
      seen = gdal.seen(i, j, 1.5, 0.2, tests::GdalMode::min);
      return seen.back();
    });
  }
  std::size_t count = 0;
  for (std::size_t n = 0; n < seen.size(); ++n) count += (seen[n] != 0) != (need.values[n] <= 0.2F);
  differ[side] = static_cast<double>(count) / static_cast<double>(seen.size());
}

void ladder(benchmark::internal::Benchmark* b) {
  b->Arg(25)->Arg(50)->Arg(100)->Iterations(2)->UseRealTime()->Unit(benchmark::kMillisecond);
}
BENCHMARK(sight_of_guests)->Apply(ladder);
BENCHMARK(water_and_ponds)->Apply(ladder);
BENCHMARK(earth_moved)->Apply(ladder);
BENCHMARK(schedule)->Apply(ladder);
BENCHMARK(depression_fill)->Apply(ladder);
BENCHMARK(prisms)->Apply(ladder);
BENCHMARK(viewshed_and_gdal)->Apply(ladder);

// Slope of log processor time against log area, least squares.
double exponent(const std::map<int, Best>& times) {
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const auto& [side, b] : times) {
    const double x = 2.0 * std::log(side), y = std::log(std::max(b.cpu, 1e-6));
    n += 1;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
  }
  return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  for (const auto& [name, times] : best) {
    const auto& [side, largest] = *times.rbegin();
    std::printf(
        "%-15s exponent against the area %.2f; %d m a side: %.3f s wall, %.3f s processor\n",
        name.c_str(), exponent(times), side, largest.wall, largest.cpu);
  }
  for (const auto& [side, ours] : best["viewshed"]) {
    const Best& gdal = best["GDAL viewshed"][side];
    std::printf(
        "viewshed %3d m: GDAL/ours %.2f by the clock, %.2f by the processor; %.2f %% differ\n",
        side, gdal.wall / ours.wall, gdal.cpu / ours.cpu, 100.0 * differ[side]);
  }
  return 0;
}
