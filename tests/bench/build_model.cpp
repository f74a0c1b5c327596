// How long a model takes to build: each shipped example, then level grounds that double. The
// complexity printed is in ground nodes.
#include <benchmark/benchmark.h>

#include <filesystem>

#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

void build_example(benchmark::State& state, const std::filesystem::path& file) {
  const Site site = read_site(file);
  for (auto _ : state) {
    const Model model = build_model(site);
    benchmark::DoNotOptimize(model.parts.data());
    state.counters["nodes"] = static_cast<double>(model.ground.grid.size());
    state.counters["parts"] = static_cast<double>(model.parts.size());
  }
}

void build_level(benchmark::State& state) {
  const auto nodes = static_cast<double>(state.range(0));
  Site site;
  site.ground.level = 0.0;
  site.ground.cell = 0.1;
  site.ground.margin = 2.0;
  const double wide = 0.1 * (nodes - 1.0) - 4.0;
  site.boundary.outline = {{0, 0}, {wide, 0}, {wide, wide}, {0, wide}};
  Section fence;
  fence.name = "fence";
  fence.edges = {0, 1, 2, 3};
  fence.height = 2.0;
  fence.aperture = 0.025;
  site.boundary.sections = {fence};
  for (auto _ : state) {
    const Model model = build_model(site);
    benchmark::DoNotOptimize(model.parts.data());
  }
  state.SetComplexityN(state.range(0) * state.range(0));
}
BENCHMARK(build_level)
    ->RangeMultiplier(2)
    ->Range(250, 2000)
    ->Complexity()
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace hummock

int main(int argc, char** argv) {
  const std::filesystem::path examples =
      std::filesystem::path(hummock::tests::source_dir()) / "examples";
  for (const auto& entry : std::filesystem::recursive_directory_iterator(examples)) {
    const std::string name = entry.path().filename().string();
    if (!name.ends_with(".site.toml")) continue;
    benchmark::RegisterBenchmark(("build " + name).c_str(), hummock::build_example, entry.path())
        ->Unit(benchmark::kMillisecond);
  }
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
