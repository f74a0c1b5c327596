// Leap on a yard as users have it: read from a site file, built and answered, then one thing moved
// again and again as in the window, every answer held against a fresh one.
//
//   bench_leap_yards SITE [moves]      prints lines: name value
//
// Seconds of the clock and of the processor (all threads). Of a move: the model with the thing in
// its new place, the answer, the colours of the leap map, the picture.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <nlohmann/json.hpp>

#include "engine/leap/rows/leap_json.h"
#include "engine/leap/search/leap_solver.h"
#include "engine/site/read_site.h"

namespace hummock {
namespace {

class Watch {
 public:
  double lap(const char* name) {
    const auto now = std::chrono::steady_clock::now();
    const double seconds = std::chrono::duration<double>(now - since_).count();
    const std::clock_t used = std::clock();
    std::printf("%s_s %.4f\n%s_cpu_s %.4f\n", name, seconds, name,
                static_cast<double>(used - used_) / CLOCKS_PER_SEC);
    since_ = std::chrono::steady_clock::now();
    used_ = std::clock();
    return seconds;
  }

 private:
  std::chrono::steady_clock::time_point since_ = std::chrono::steady_clock::now();
  std::clock_t used_ = std::clock();
};

void tell(const leap::LeapSolver& solver) {
  for (const auto& [name, seconds] : solver.stages())
    std::printf("  stage_%s_s %.4f\n", name.c_str(), seconds);
}

int run(const std::string& path, int moves) {
  Watch watch;
  Site site = read_site(path);
  watch.lap("read");
  const Model model = build_model(site);
  watch.lap("build");
  leap::Settings settings;
  settings.remedies = false;
  leap::LeapSolver solver(model, settings);
  watch.lap("answer");
  tell(solver);
  solver.ground_required_leap(model);
  watch.lap("map");
  std::printf("margin %.6f\nthings %zu\n", solver.result().margin, site.objects.size());
  for (int k = 0; k < moves && !site.objects.empty(); ++k) {
    const std::size_t which = static_cast<std::size_t>(k) % site.objects.size();
    site.objects[which].at.x += k % 2 == 0 ? 0.15 : -0.15;
    std::printf("moved %s\n", site.objects[which].name.c_str());
    Watch move;
    const Model moved = build_model(site);
    double whole = move.lap("  model");
    solver.update(moved, static_cast<int>(which));
    whole += move.lap("  update");
    tell(solver);
    const geom::Raster map = solver.ground_required_leap(moved);
    whole += move.lap("  map");
    std::printf("  move_s %.4f\n", whole);
    const leap::LeapSolver fresh(moved, settings);
    const bool same =
        leap::to_json(fresh.result(), moved).dump() == leap::to_json(solver.result(), moved).dump();
    std::printf("  same_as_fresh %d\n", same ? 1 : 0);
    if (!same) return 1;
  }
  return 0;
}

}  // namespace
}  // namespace hummock

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fprintf(stderr, "bench_leap_yards SITE [moves]\n");
    return 2;
  }
  return hummock::run(argv[1], argc > 2 ? std::atoi(argv[2]) : 0);
}
