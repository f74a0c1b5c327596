// One sun over real yards: the fast path against packets of Embree rays, on one thread, in
// processor seconds: bench_shade [FOLDER]. The yards of tests/bench/yards/make_yards.py, written
// into FOLDER (by default a temporary one) and read as the program reads them. Prints a line for
// each figure: what, yard, height of the sun in degrees, value.
//
// `packets` is what rays cost at their cheapest: everything taken as if it were opaque, so that
// each ray stops at the first thing it meets. `reference` gives the same answers as the fast path;
// `unequal` is the share of nodes on which the two differ by more than a hundredth of the beam, but
// for those on the fence's own line, which rays light or not as they are rounded.
#include <fmt/core.h>
#include <tbb/global_control.h>

#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <string>

#include "engine/model/model.h"
#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/step_beam.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/site/read_site.h"
#include "geometry/plan/polygon.h"
#include "tests/support/paths.h"

namespace hummock::shade {
namespace {

namespace fs = std::filesystem;

constexpr double kAzimuth = 230.0 * geom::kDegree;  // of the sun; any that is no fence's
constexpr sun::Date kDay{2026, 6, 21};

double processor_seconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

template <class F>
double least_of(int times, F f) {
  double best = 1e300;
  for (int k = 0; k < times; ++k) {
    const double start = processor_seconds();
    f();
    best = std::min(best, processor_seconds() - start);
  }
  return best;
}

SunRay sun_at_height(double degrees) {
  const double e = degrees * geom::kDegree;
  return sun_ray({std::cos(e) * std::sin(kAzimuth), std::cos(e) * std::cos(kAzimuth), std::sin(e)});
}

using Beams = std::vector<std::array<float, kTileNodes>>;

// As a day's step does it.
void fast_beams(const FastBeam& fast, const geom::Grid& grid, const std::vector<Tile>& tiles,
                const std::vector<TileGroup>& groups, const SunRay& sun, Beams& out) {
  const std::vector<SunRay> suns{sun};
  const std::vector<GroundStatus> sweeps = fast.sweeps(tiles, grid, suns);
  TileBeam beam, scratch;
  StepShadows shadows;
  for (const TileGroup& g : groups) {
    lay_out(fast, g.box, suns, kDay, fast.near(g.box, suns), shadows);
    for (const std::size_t k : g.tiles) {
      beam_of_step(fast, tiles[k], shadows, sweeps, beam, scratch);
      spread(beam);
      out[k] = beam.each;
    }
  }
}

double unequal(const Model& model, const std::vector<Tile>& tiles, const Beams& a, const Beams& b) {
  double nodes = 0, off = 0;
  for (std::size_t k = 0; k < tiles.size(); ++k)
    for (std::size_t n = 0; n < kTileNodes; ++n) {
      if (tiles[k].inside[n] == 0) continue;
      nodes += 1;
      if (std::abs(a[k][n] - b[k][n]) <= 0.01F) continue;
      const Vec2 p = xy(tiles[k].ref) + Vec2{tiles[k].x[n], tiles[k].y[n]};
      off += distance_to_edges(model.outline, p) > 1e-3 ? 1 : 0;
    }
  return off / nodes;
}

Model all_opaque(Model m) {
  for (Part& p : m.parts) {
    p.openness = 0.0;
    p.leaf_density = 0.0;
    p.kind = PartKind::object;
  }
  return m;
}

void one_yard(const fs::path& file, int times) {
  const std::string name = file.stem().stem().string();
  const Model model = build_model(read_site(file));
  const Model solid = all_opaque(model);
  const FastBeam fast(model);
  const std::vector<Caster> solids = casters_of(solid);
  const RayBeam packets(solid, solids, std::vector<bool>(solids.size(), false));
  const std::vector<Tile> tiles = ground_tiles(model, model.ground.grid);
  const std::vector<TileGroup> groups = group_tiles(tiles);
  double nodes = 0;
  for (const Tile& t : tiles) nodes += t.count;
  fmt::print("nodes {} {:.0f}\ncasters {} {}\n", name, nodes, name, fast.casters().size());
  Beams by_fast(tiles.size()), by_rays(tiles.size()), by_packets(tiles.size());
  const auto over = [&](const RayBeam& rays, const SunRay& sun, Beams& out) {
    for (std::size_t k = 0; k < tiles.size(); ++k) rays.tile(tiles[k], sun, kDay, out[k]);
  };
  for (const int height : {5, 10, 25, 60}) {
    const SunRay sun = sun_at_height(height);
    over(fast.rays(), sun, by_rays);  // builds what is built once
    packets.tile(tiles[0], sun, kDay, by_packets[0]);
    const double f =
        least_of(times, [&] { fast_beams(fast, model.ground.grid, tiles, groups, sun, by_fast); });
    const double p = least_of(times, [&] { over(packets, sun, by_packets); });
    const double r = least_of(1, [&] { over(fast.rays(), sun, by_rays); });
    const auto tell = [&](const char* what, double value) {
      fmt::print("{} {} {} {:.4g}\n", what, name, height, value);
    };
    tell("fast_ns_a_node", f / nodes * 1e9);
    tell("packets_ns_a_node", p / nodes * 1e9);
    tell("fast_over_packets", p / f);
    tell("fast_over_reference", r / f);
    tell("unequal", unequal(model, tiles, by_fast, by_rays));
    std::fflush(stdout);
  }
}

int run(const fs::path& folder, int times) {
  const fs::path script = fs::path(tests::source_dir()) / "tests/bench/yards/make_yards.py";
  if (std::system(fmt::format("python3 '{}' '{}'", script.string(), folder.string()).c_str()) != 0)
    return 1;
  for (const char* name : {"hectare", "hectare-trees"})
    one_yard(folder / (std::string(name) + ".site.toml"), times);
  return 0;
}

}  // namespace
}  // namespace hummock::shade

int main(int argc, char** argv) {
  const tbb::global_control one_thread(tbb::global_control::max_allowed_parallelism, 1);
  const auto folder = argc > 1 ? std::filesystem::path(argv[1])
                               : std::filesystem::temp_directory_path() / "hummock-yards";
  return hummock::shade::run(folder, argc > 2 ? std::atoi(argv[2]) : 3);
}
