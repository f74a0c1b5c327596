// Dig, openings and entry on square yards of 25 to 200 m a side (100 m = a hectare) at 10 cm: rough
// ground all over, skirt and apron all round, a gate, stones in proportion to the area. One run
// prints the seconds and the exponent against the number of stations (and of boundary cells), which
// grows with the side.
#include "engine/dig/dig.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include "engine/entry/entry.h"
#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace {

using namespace hummock;

Site rough_site(double side) {
  Site site = test::yard(side, side, 2.0);
  Section& fence = site.boundary.sections[0];
  fence.buried = 0.4;
  fence.apron = Apron{0.6, 0.1, Side::inside};
  site.ground.soil_depth = 1.2;
  test::split_sections(site);
  site.boundary.sections[2].footing = Footing{0.5, 0.2};
  site.boundary.sections[3].fit = Fit::stepped;
  int k = 0;
  for (double x = 0.0; x <= side; x += 3.1) {
    for (const double y : {0.0, side}) {
      test::add_mound(site, {x, y}, 2.0, 0.10 + 0.02 * (k % 7));
      test::add_mound(site, {y, x}, 2.0, 0.11 + 0.02 * (k % 5));
      ++k;
    }
  }
  const int stones = static_cast<int>(side * side / 200.0);
  for (int i = 0; i < stones; ++i) {
    const double x = 1.0 + std::fmod(i * 7.31, side - 2.0),
                 y = 1.0 + std::fmod(i * 3.77, side - 2.0);
    test::add_boulder(site, "stone " + std::to_string(i), {x, y}, {1.2, 1.0, 0.8},
                      static_cast<std::uint32_t>(i));
  }
  Gate& gate = test::add_gate(site, 0, side / 2, 1.0, 1.8);
  gate.under_gap = 0.03;
  gate.vestibule = Vestibule{2.2, true, true, false};
  return site;
}

const Model& model_of(int side) {
  static std::map<int, Model> models;
  const auto it = models.find(side);
  if (it != models.end()) return it->second;
  return models.emplace(side, test::built(rough_site(side))).first->second;
}

// Name → side → best seconds.
std::map<std::string, std::map<int, double>> best;

double seconds_now() {
  const auto now = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double>(now).count();
}

template <class Run>
void measure(benchmark::State& state, const std::string& name, Run run) {
  const int side = static_cast<int>(state.range(0));
  const Model& model = model_of(side);
  double& least = best[name].try_emplace(side, 1e300).first->second;
  for (auto _ : state) {
    const double from = seconds_now();
    benchmark::DoNotOptimize(run(model));
    least = std::min(least, seconds_now() - from);
  }
}

void dig_routes(benchmark::State& state) {
  measure(state, "dig", [](const Model& m) { return dig::analyse(m).least_length_m; });
}
void all_openings(benchmark::State& state) {
  measure(state, "openings", [](const Model& m) { return openings::analyse(m).largest_m; });
}
void entry_of_gates(benchmark::State& state) {
  measure(state, "entry", [](const Model& m) { return entry::analyse(m).met; });
}
BENCHMARK(dig_routes)
    ->Arg(25)
    ->Arg(50)
    ->Arg(100)
    ->Arg(200)
    ->Iterations(2)
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK(all_openings)
    ->Arg(25)
    ->Arg(50)
    ->Arg(100)
    ->Arg(200)
    ->Iterations(2)
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);
BENCHMARK(entry_of_gates)
    ->Arg(25)
    ->Arg(50)
    ->Arg(100)
    ->Arg(200)
    ->Iterations(2)
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

// Slope of log time against log side, least squares.
double exponent(const std::map<int, double>& times) {
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const auto& [side, seconds] : times) {
    const double x = std::log(side), y = std::log(seconds);
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
    std::printf("%-9s exponent against the side %.2f, against the area %.2f\n", name.c_str(),
                exponent(times), 0.5 * exponent(times));
  }
  return 0;
}
