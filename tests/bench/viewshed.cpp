// The viewshed of written yards' ground against GDAL's on the same heights: bench_viewshed SITE...
//
// For each site file (tests/bench/yards/make_yards.py writes them: plot-25, plot-50, hectare,
// hectare-5cm) the ground as `build_model` has it, eyes 1.6 m over a node in the middle, near a
// corner and at the middle of a side, a target of 0.2 m. Ours on one thread and on all; GDAL's
// through its library (GDALViewshedGenerate, in memory, its default mode) and as the program
// gdal_viewshed on a GeoTIFF (only where it is on the path), which reads and writes files besides.
// GDAL's work is single-threaded. `two_core_path` is what two idle cores would take, from the
// processor time of each eighth; `heights` is every node's least visible height instead of yes or
// no at the target's. The least of several turns, clock and processor, all eyes
// together; what the two judge otherwise is counted against ours, which is exact.
#include "geometry/terrain/viewshed.h"

#include <cpl_conv.h>
#include <gdal.h>
#include <sys/resource.h>
#include <tbb/global_control.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include "engine/model/model.h"
#include "engine/site/read_site.h"
#include "geometry/terrain/eighth_sweep.h"
#include "tests/support/gdal_viewshed.h"

namespace {

using namespace hummock;
namespace fs = std::filesystem;

constexpr double kEye = 1.6, kTarget = 0.2;  // m
constexpr int kTurns = 9;

struct Node {
  int i, j;
};

double processor(int who) {
  rusage used{};
  ::getrusage(who, &used);
  const auto s = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return s(used.ru_utime) + s(used.ru_stime);
}

struct Best {
  double clock = 1e300, processor = 1e300;  // s
};

template <class Run>
void time_one(Best& best, int who, const Run& run) {
  const auto start = std::chrono::steady_clock::now();
  const double used = processor(who);
  run();
  const std::chrono::duration<double> clock = std::chrono::steady_clock::now() - start;
  best.clock = std::min(best.clock, clock.count());
  best.processor = std::min(best.processor, processor(who) - used);
}

std::vector<Node> eyes_of(const geom::Grid& g) {
  return {{g.nx / 2, g.ny / 2}, {g.nx / 12, g.ny / 10}, {g.nx / 2, g.ny / 15}};
}

// The heights as a GeoTIFF, for the program.
class TiffOf {
 public:
  explicit TiffOf(const tests::GdalGround& ground)
      : folder_(fs::temp_directory_path() / ("viewshed-" + std::to_string(::getpid()))) {
    fs::create_directories(folder_);
    ground.save_tiff(in());
  }
  ~TiffOf() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  TiffOf(const TiffOf&) = delete;
  TiffOf& operator=(const TiffOf&) = delete;
  std::string in() const { return (folder_ / "in.tif").string(); }
  void see(Vec2 from) const {
    const std::string line = "gdal_viewshed -q -cc 0 -oz " + std::to_string(kEye) + " -tz " +
                             std::to_string(kTarget) + " -ox " + std::to_string(from.x) + " -oy " +
                             std::to_string(from.y) + " " + in() + " " +
                             (folder_ / "out.tif").string() + " >/dev/null";
    if (std::system(line.c_str()) != 0) std::fprintf(stderr, "gdal_viewshed failed\n");
  }

 private:
  fs::path folder_;
};

bool has_program() {
  return std::system("command -v gdal_viewshed >/dev/null 2>&1") == 0;
}

struct Times {
  Best all, one, heights, library, program;
  double path = 1e300;  // s: the longer of two cores' shares, eighth by eighth
  double differ = 0.0;  // share of nodes
  std::size_t nodes = 0;
};

using Bytes = std::vector<std::uint8_t>;

Vec3 eye_over(const geom::Heightfield& ground, Node e) {
  return at_height(ground.grid.node(e.i, e.j), ground.at(e.i, e.j) + kEye);
}

void ours(const geom::Heightfield& ground, const std::vector<Node>& eyes,
          std::vector<Bytes>& hidden) {
  hidden.clear();
  const geom::NodeRange all{0, ground.grid.nx - 1, 0, ground.grid.ny - 1};
  for (const Node e : eyes)
    hidden.push_back(geom::hidden_nodes(ground, eye_over(ground, e), kTarget, all));
}

void heights(const geom::Heightfield& ground, const std::vector<Node>& eyes) {
  double sum = 0.0;
  for (const Node e : eyes)
    sum +=
        static_cast<double>(geom::least_visible_height(ground, eye_over(ground, e)).values.back());
  if (sum < 0.0) std::printf("never\n");
}

// What two cores without others on them would take: each eighth timed by itself, the longest first
// to whichever core is free. On a machine shared with others the clock tells less.
double path_of_two(const geom::Heightfield& ground, const std::vector<Node>& eyes) {
  const geom::NodeRange all{0, ground.grid.nx - 1, 0, ground.grid.ny - 1};
  double path = 0.0;
  for (const Node e : eyes) {
    std::vector<double> took;
    Best fill;
    Bytes out;
    time_one(fill, RUSAGE_THREAD, [&] { out.assign(ground.grid.size(), 0); });
    geom::ViewAnswers answers;
    answers.hidden = out.data();
    answers.tall = kTarget;
    for (int n = 0; n < 8; ++n) {
      const auto start = std::clock();
      geom::sweep_eighth(ground, eye_over(ground, e),
                         {(n & 1) != 0, (n & 2) != 0 ? 1 : -1, (n & 4) != 0 ? 1 : -1}, all,
                         answers);
      took.push_back(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    std::sort(took.rbegin(), took.rend());
    double core[2] = {0.0, 0.0};
    for (const double t : took) core[core[1] < core[0] ? 1 : 0] += t;
    path += fill.processor + std::max(core[0], core[1]);
  }
  return path;
}

double share_judged_otherwise(const std::vector<Bytes>& hidden,
                              const std::vector<std::vector<unsigned char>>& seen) {
  double differ = 0.0, count = 0.0;
  for (std::size_t k = 0; k < hidden.size(); ++k)
    for (std::size_t n = 0; n < seen[k].size(); ++n, ++count)
      differ += (seen[k][n] != 0) == (hidden[k][n] != 0) ? 1.0 : 0.0;
  return differ / count;
}

Times measure(const geom::Heightfield& ground) {
  Times t;
  t.nodes = ground.grid.size();
  const std::vector<Node> eyes = eyes_of(ground.grid);
  const tests::GdalGround gdal(ground);
  const TiffOf tiff(gdal);
  const bool program = has_program();
  std::vector<Bytes> need;
  std::vector<std::vector<unsigned char>> seen(eyes.size());
  for (int turn = 0; turn < kTurns; ++turn) {
    time_one(t.all, RUSAGE_SELF, [&] { ours(ground, eyes, need); });
    {
      const tbb::global_control alone(tbb::global_control::max_allowed_parallelism, 1);
      time_one(t.one, RUSAGE_SELF, [&] { ours(ground, eyes, need); });
    }
    time_one(t.heights, RUSAGE_SELF, [&] { heights(ground, eyes); });
    t.path = std::min(t.path, path_of_two(ground, eyes));
    time_one(t.library, RUSAGE_SELF, [&] {
      for (std::size_t k = 0; k < eyes.size(); ++k)
        seen[k] = gdal.seen(eyes[k].i, eyes[k].j, kEye, kTarget);
    });
    if (program)
      time_one(t.program, RUSAGE_CHILDREN, [&] {
        for (const Node e : eyes) tiff.see(ground.grid.node(e.i, e.j));
      });
  }
  t.differ = share_judged_otherwise(need, seen);
  return t;
}

void print(const std::string& name, const Times& t) {
  const auto line = [&](const char* what, double value) {
    std::printf("viewshed.%s.%s %.4g\n", name.c_str(), what, value);
  };
  line("nodes", static_cast<double>(t.nodes));
  line("ours_clock_s", t.all.clock);
  line("ours_processor_s", t.all.processor);
  line("ours_one_thread_clock_s", t.one.clock);
  line("ours_two_core_path_s", t.path);
  line("ours_heights_processor_s", t.heights.processor);
  line("gdal_library_clock_s", t.library.clock);
  line("gdal_library_processor_s", t.library.processor);
  line("gdal_library_over_ours", t.library.clock / t.all.clock);
  line("gdal_library_over_ours_one_thread", t.library.clock / t.one.clock);
  line("gdal_library_over_ours_two_core_path", t.library.processor / t.path);
  line("gdal_library_over_ours_processor", t.library.processor / t.all.processor);
  if (t.program.clock < 1e300) {
    line("gdal_program_clock_s", t.program.clock);
    line("gdal_program_over_ours", t.program.clock / t.all.clock);
  }
  line("judged_otherwise_share", t.differ);
}

}  // namespace

int main(int argc, char** argv) {
  std::printf("viewshed.threads %u\n", std::thread::hardware_concurrency());
  for (int k = 1; k < argc; ++k) {
    const Model model = build_model(read_site(argv[k]));
    std::string name = fs::path(argv[k]).filename().string();
    print(name.substr(0, name.find('.')), measure(model.ground));
    std::fflush(stdout);
  }
  return 0;
}
