// Raster metrics against GDAL's DEM processing on the same raster in one run, one thread each; the
// fused sums; the building of the largest example's model.
//
// The ladder doubles the side; the complexity line is the exponent. `ratio` is GDAL's time over
// ours, each the best of three in this run: load from elsewhere spoils seconds sooner than ratios.
#include "engine/relief/relief.h"

#include <benchmark/benchmark.h>
#include <cpl_conv.h>
#include <fmt/core.h>
#include <tbb/global_control.h>

#include <chrono>
#include <cmath>
#include <filesystem>
#include <functional>
#include <map>

#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "geometry/terrain/terrain_metrics.h"
#include "geometry/terrain/terrain_sums.h"
#include "tests/support/dem_witness.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

geom::Heightfield rough_ground(int side) {
  geom::Heightfield ground;
  ground.grid = {0.0, 0.0, 0.1, side, side};
  ground.z.resize(ground.grid.size());
  for (int j = 0; j < side; ++j)
    for (int i = 0; i < side; ++i)
      ground.at(i, j) =
          0.4 * std::sin(0.05 * i) * std::cos(0.03 * j) + 0.02 * std::sin(1.7 * i * j);
  return ground;
}

double seconds(const std::function<void()>& work) {
  double best = 1e300;
  for (int k = 0; k < 3; ++k) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(
        best, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

struct Metric {
  const char* name;
  const char* mode;  // GDAL's
  std::vector<std::string> options;
  geom::Raster (*ours)(const geom::Heightfield&);
};

const std::vector<Metric>& metrics() {
  static const std::vector<Metric> all{{"slope", "slope", {}, geom::slope},
                                       {"aspect", "aspect", {}, geom::aspect},
                                       {"ruggedness", "TRI", {"-alg", "Riley"}, geom::ruggedness},
                                       {"position_index", "TPI", {}, geom::position_index},
                                       {"roughness", "roughness", {}, geom::roughness}};
  return all;
}

void against_gdal(benchmark::State& state, const Metric& metric) {
  const auto side = static_cast<int>(state.range(0));
  const geom::Heightfield ground = rough_ground(side);
  const tests::Dataset source = tests::as_dataset(ground);
  const double theirs =
      seconds([&] { tests::dem_processing(source, metric.mode, metric.options); });
  const double ours = seconds([&] { benchmark::DoNotOptimize(metric.ours(ground)); });
  for (auto _ : state) benchmark::DoNotOptimize(metric.ours(ground));
  const double cells = static_cast<double>(ground.grid.size());
  state.counters["ratio"] = theirs / ours;
  state.counters["ours_Mcells_s"] = cells / ours / 1e6;
  state.counters["gdal_Mcells_s"] = cells / theirs / 1e6;
  state.SetComplexityN(state.range(0) * state.range(0));
}

void all_in_one_pass(benchmark::State& state) {
  const auto side = static_cast<int>(state.range(0));
  const geom::Heightfield ground = rough_ground(side);
  const std::vector<std::uint8_t> all(ground.grid.size(), 1);
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  const tests::Dataset source = tests::as_dataset(ground);
  double theirs = 0.0;
  for (const Metric& metric : metrics())
    theirs += seconds([&] { tests::dem_processing(source, metric.mode, metric.options); });
  const double ours = seconds([&] { benchmark::DoNotOptimize(geom::terrain_sums(ground, all)); });
  for (auto _ : state) benchmark::DoNotOptimize(geom::terrain_sums(ground, all));
  state.counters["ratio"] = theirs / ours;
  state.counters["ours_Mcells_s"] = static_cast<double>(ground.grid.size()) / ours / 1e6;
  state.SetComplexityN(state.range(0) * state.range(0));
}

std::vector<std::filesystem::path> examples() {
  std::vector<std::filesystem::path> out;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(
           std::filesystem::path(tests::source_dir()) / "examples"))
    if (entry.path().filename().string().ends_with(".site.toml")) out.push_back(entry.path());
  std::sort(out.begin(), out.end());
  return out;
}

void build_example(benchmark::State& state, const std::filesystem::path& path) {
  const Site site = read_site(path);
  std::size_t nodes = 0;
  for (auto _ : state) nodes = build_model(site).ground.grid.size();
  state.counters["nodes"] = static_cast<double>(nodes);
}

void analyse_example(benchmark::State& state, const std::filesystem::path& path) {
  const Model model = build_model(read_site(path));
  for (auto _ : state) benchmark::DoNotOptimize(relief::analyse(model));
}

void register_all() {
  for (const Metric& metric : metrics())
    benchmark::RegisterBenchmark((std::string("terrain/") + metric.name).c_str(), against_gdal,
                                 metric)
        ->RangeMultiplier(2)
        ->Range(512, 4096)
        ->Unit(benchmark::kMillisecond)
        ->Complexity();
  benchmark::RegisterBenchmark("terrain/all_in_one_pass", all_in_one_pass)
      ->RangeMultiplier(2)
      ->Range(512, 4096)
      ->Unit(benchmark::kMillisecond)
      ->Complexity();
  for (const auto& path : examples()) {
    const std::string name = path.parent_path().filename().string();
    benchmark::RegisterBenchmark(("build/" + name).c_str(), build_example, path)
        ->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark(("relief/" + name).c_str(), analyse_example, path)
        ->Unit(benchmark::kMillisecond);
  }
}

}  // namespace
}  // namespace hummock

int main(int argc, char** argv) {
  CPLSetConfigOption("GDAL_NUM_THREADS", "1");
  hummock::register_all();
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
