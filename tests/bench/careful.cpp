// What *met, if* costs: the whole check of each shipped example with the careful ends solved too,
// over the same check without. Processor time of all threads, within one run; the model is built
// once, before.
#include <benchmark/benchmark.h>

#include <ctime>
#include <string>

#include "engine/check/check.h"
#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace hummock {
namespace {

double seconds_of(const Model& model, bool explore) {
  CheckOptions options;
  options.explore = explore;
  const std::clock_t start = std::clock();
  benchmark::DoNotOptimize(run_check(model, options));
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

void careful_ends(benchmark::State& state, const std::string& name) {
  const Model model =
      build_model(read_site(tests::source_dir() + "/examples/" + name + "/" + name + ".site.toml"));
  double plain = 0.0, explored = 0.0;
  for (auto _ : state) {
    plain += seconds_of(model, false);
    explored += seconds_of(model, true);
  }
  const auto runs = static_cast<double>(state.iterations());
  state.counters["plain_s"] = plain / runs;
  state.counters["explored_s"] = explored / runs;
  state.counters["explored_over_plain"] = explored / plain;
}

BENCHMARK_CAPTURE(careful_ends, north_yard, "north-yard")->Iterations(1)->Unit(benchmark::kSecond);
BENCHMARK_CAPTURE(careful_ends, larkfell_terrace, "larkfell-terrace")
    ->Iterations(1)
    ->Unit(benchmark::kSecond);
BENCHMARK_CAPTURE(careful_ends, crater_paddock, "crater-paddock")
    ->Iterations(1)
    ->Unit(benchmark::kSecond);

}  // namespace
}  // namespace hummock

BENCHMARK_MAIN();
