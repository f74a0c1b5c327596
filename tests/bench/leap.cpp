// Speed of the leap search: against all pairs, with growing meshes, and at the sizes users have.
//
// Ratios are of processor time, taken within one run; `exponent` is the slope of log time over log
// triangles from the smallest to each size, `exponent_last_step` from the size before. All sites
// but the example are invented.
#include <benchmark/benchmark.h>

#include <cmath>
#include <ctime>
#include <limits>
#include <map>
#include <random>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/places/places.h"
#include "engine/leap/search/leap_solver.h"
#include "engine/leap/search/minimax.h"
#include "engine/site/read_site.h"
#include "tests/support/paths.h"

namespace hummock::leap {
namespace {

// Processor time of all threads: ratios hold on a busy machine too.
struct Clock {
  static std::clock_t now() { return std::clock(); }
};
double seconds_since(std::clock_t start) {
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

template <class T>
Sourced<T> invented(T value) {
  Sourced<T> s;
  s.value = value;
  s.source = "invented for the benchmark";
  return s;
}

// A square yard with `count` boxes, boulders, logs and platforms spread over it.
Site invented_yard(double side, int count, double cell, double fence, double height,
                   double distance) {
  Site site;
  site.name = "invented";
  site.ground.level = 0.0;
  site.ground.cell = cell;
  site.ground.margin = 2.0;
  site.boundary.outline = {{0, 0}, {side, 0}, {side, side}, {0, side}};
  Section section;
  section.name = "fence";
  section.edges = {0, 1, 2, 3};
  section.kind = SheetKind::mesh;
  section.aperture = 0.025;
  section.height = fence;
  section.panel = 2.5;
  section.overhang = Overhang{0.5, 0.7};
  site.boundary.sections = {section};
  Species& s = site.species;
  s.leap_height = invented(height);
  s.leap_distance = invented(distance);
  s.grip = invented(0.1);
  s.cling_leap = invented(0.0);
  s.stand_slope = invented(0.7);
  s.climbs = invented(std::vector<std::string>{"bark"});
  s.body = invented(std::array<double, 3>{0.4, 0.12, 0.2});
  s.least_opening = invented(0.05);
  s.dig_depth = invented(0.9);
  s.dig_length = invented(3.0);
  s.wade_depth = invented(0.05);
  s.eye_height = invented(0.2);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> at(1.2, side - 1.2), size(0.4, 1.2), up(0.3, 1.0);
  for (int k = 0; k < count; ++k) {
    Object o;
    o.kind = k % 4 == 0   ? ObjectKind::box
             : k % 4 == 1 ? ObjectKind::boulder
             : k % 4 == 2 ? ObjectKind::log
                          : ObjectKind::platform;
    o.name = "thing " + std::to_string(k);
    o.at = {at(random), at(random)};
    o.turn = at(random);
    o.seed = static_cast<std::uint32_t>(k);
    o.size = {size(random), size(random), up(random)};
    if (o.kind == ObjectKind::log) o.size = {2.0 * o.size.x, 0.25, 0.25};
    site.objects.push_back(o);
  }
  return site;
}

Settings at_resolution(double resolution) {
  Settings settings;
  settings.resolution = resolution;
  return settings;
}

void note_stages(benchmark::State& state, const LeapSolver& solver) {
  for (const auto& [name, seconds] : solver.stages()) state.counters[name + "_ms"] = 1e3 * seconds;
}

// --- against all pairs of the same pieces, example yard

struct Pieces {
  std::vector<PatchPtr> patches;
  LinkRules links;
};

Pieces pieces_of(const Model& model, double resolution) {
  Pieces out;
  const PlaceRules places = place_rules(model.site.species, resolution, false);
  out.links.ability = places.ability;
  out.links.limit = 2.0 * places.ability.height;
  out.links.step = resolution;
  out.links.step_over_gap = 0.5 * resolution;
  out.links.chord_error = 0.25 * resolution;
  std::vector<PatchPtr> raised;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    for (auto& p : part_places(model, static_cast<int>(k), places)) raised.push_back(p);
  }
  for (auto& p : exits(model, places)) raised.push_back(p);
  for (const PatchPtr& p : ground_places(model, places).patches) out.patches.push_back(unfolded(p));
  out.patches.insert(out.patches.end(), raised.begin(), raised.end());
  return out;
}

// Every pair of pieces looked at; a flight is tested only where it would be the least so far, and a
// blocked one is not tried again: less work than the search answers for.
double escape_over_all_pairs(const Pieces& pieces, const geom::RayScene& scene) {
  const double none = std::numeric_limits<double>::infinity();
  std::vector<double> required_leap(pieces.patches.size(), none);
  std::vector<char> done(pieces.patches.size(), 0);
  required_leap[0] = 0.0;
  double escape = none;
  for (;;) {
    std::size_t next = required_leap.size();
    for (std::size_t k = 0; k < required_leap.size(); ++k) {
      const bool open = done[k] == 0 && required_leap[k] <= pieces.links.limit;
      if (open && (next == required_leap.size() || required_leap[k] < required_leap[next]))
        next = k;
    }
    if (next == required_leap.size()) return escape;
    done[next] = 1;
    if (is_exit(*pieces.patches[next])) {
      escape = std::min(escape, required_leap[next]);
      continue;
    }
    for (std::size_t t = 0; t < required_leap.size(); ++t) {
      if (done[t] != 0) continue;
      for (const SurfacePiece& p : pieces.patches[next]->pieces) {
        for (const SurfacePiece& q : pieces.patches[t]->pieces) {
          const double e = std::max(required_leap[next],
                                    link_bound(pieces.links, p.cell, !p.cling, q.cell, q.hook));
          if (!(e < required_leap[t])) continue;
          const Arc arc = least_arc(pieces.links, p, q);
          if (within_step_over(pieces.links, p, q) ||
              arc_free(scene, arc, pieces.links.chord_error, ends_of(pieces.links, q))) {
            required_leap[t] = e;
          }
        }
      }
    }
  }
}

void AgainstAllPairsOnTheExampleYard(benchmark::State& state) {
  const Model model =
      build_model(read_site(tests::source_dir() + "/examples/north-yard/north-yard.site.toml"));
  const Pieces pieces = pieces_of(model, 0.1);
  Quest quest;
  quest.starts = {{0, 0.0}};
  for (std::size_t k = 1; k < pieces.patches.size(); ++k) {
    quest.targets.push_back(static_cast<int>(k));
  }
  double fast = 0.0;
  double slow = 0.0;
  double escape_slow = 0.0;
  double escape_fast = 1e300;
  for (auto _ : state) {
    auto start = Clock::now();
    const SearchResult result = search(pieces.patches, quest, *model.body_scene, pieces.links);
    fast = seconds_since(start);
    for (std::size_t k = 0; k < pieces.patches.size(); ++k) {
      if (is_exit(*pieces.patches[k])) {
        escape_fast = std::min(escape_fast, result.patches[k].required_leap);
      }
    }
    start = Clock::now();
    escape_slow = escape_over_all_pairs(pieces, *model.body_scene);
    slow = seconds_since(start);
  }
  std::size_t spots = 0;
  for (const auto& p : pieces.patches) spots += p->pieces.size();
  state.counters["spots"] = static_cast<double>(spots);
  state.counters["search_ms"] = 1e3 * fast;
  state.counters["all_pairs_ms"] = 1e3 * slow;
  state.counters["ratio"] = slow / fast;
  state.counters["escape_search_m"] = escape_fast;
  state.counters["escape_all_pairs_m"] = escape_slow;
}
BENCHMARK(AgainstAllPairsOnTheExampleYard)->Iterations(1)->Unit(benchmark::kMillisecond);

// --- growth with the number of triangles

void quarter_every_triangle(geom::Mesh& mesh) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
  const auto middle = [&](std::uint32_t a, std::uint32_t b) {
    const auto [it, fresh] = middles.try_emplace({std::min(a, b), std::max(a, b)},
                                                 static_cast<std::uint32_t>(mesh.vertices.size()));
    if (fresh) mesh.vertices.push_back((mesh.vertices[a] + mesh.vertices[b]) * 0.5);
    return it->second;
  };
  std::vector<geom::Triangle> finer;
  for (const geom::Triangle& t : mesh.triangles) {
    const auto ab = middle(t[0], t[1]);
    const auto bc = middle(t[1], t[2]);
    const auto ca = middle(t[2], t[0]);
    finer.insert(finer.end(), {{t[0], ab, ca}, {ab, t[1], bc}, {ca, bc, t[2]}, {ab, bc, ca}});
  }
  mesh.triangles = std::move(finer);
}

void GrowthWithTriangles(benchmark::State& state) {
  static double first_time = 0.0;
  static double first_count = 0.0;
  static double last_time = 0.0;
  static double last_count = 0.0;
  Site site = invented_yard(10.0, 40, 0.1, 1.8, 1.0, 2.0);
  Model model = build_model(site);
  for (int k = 0; k < state.range(0); ++k) {
    for (Part& part : model.parts) {
      if (part.kind == PartKind::object) quarter_every_triangle(part.mesh);
    }
  }
  geom::RayScene scene;
  scene.add_ground(model.ground, kGroundId);
  double triangles = 0.0;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    if (!model.parts[k].blocks_body) continue;
    scene.add_mesh(model.parts[k].mesh, static_cast<std::int32_t>(k));
    triangles += static_cast<double>(model.parts[k].mesh.triangles.size());
  }
  scene.commit();
  model.body_scene = std::make_shared<const geom::RayScene>(std::move(scene));
  double best = 1e300;
  for (auto _ : state) {
    const auto start = Clock::now();
    const LeapSolver solver(model, at_resolution(0.05));
    best = std::min(best, seconds_since(start));
    benchmark::DoNotOptimize(solver.result().margin);
    note_stages(state, solver);
  }
  if (state.range(0) == 0) {
    first_time = best;
    first_count = triangles;
  }
  state.counters["triangles"] = triangles;
  state.counters["ms"] = 1e3 * best;
  if (triangles > first_count) {
    const auto exponent = [&](double time, double count) {
      return std::log(best / time) / std::log(triangles / count);
    };
    state.counters["exponent"] = exponent(first_time, first_count);
    state.counters["exponent_last_step"] = exponent(last_time, last_count);
  }
  last_time = best;
  last_count = triangles;
}
BENCHMARK(GrowthWithTriangles)
    ->DenseRange(0, 3)
    ->Iterations(3)
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond);

// --- sizes that users have

void HundredSquareMetresFortyThings(benchmark::State& state) {
  const Model model = build_model(invented_yard(10.0, 40, 0.1, 1.8, 1.0, 2.0));
  for (auto _ : state) {
    const LeapSolver solver(model, at_resolution(0.05));
    benchmark::DoNotOptimize(solver.result().margin);
    note_stages(state, solver);
  }
}
BENCHMARK(HundredSquareMetresFortyThings)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

void OneThingMovedInTheSameYard(benchmark::State& state) {
  Site site = invented_yard(10.0, 40, 0.1, 1.8, 1.0, 2.0);
  LeapSolver solver(build_model(site), at_resolution(0.05));
  int k = 0;
  for (auto _ : state) {
    state.PauseTiming();
    const std::size_t which = static_cast<std::size_t>(k++ % 40);
    site.objects[which].at.x += site.objects[which].at.x < 5.0 ? 0.3 : -0.3;
    const Model model = build_model(site);
    state.ResumeTiming();
    benchmark::DoNotOptimize(solver.update(model, static_cast<int>(which)).margin);
    state.PauseTiming();
    note_stages(state, solver);
    state.ResumeTiming();
  }
}
BENCHMARK(OneThingMovedInTheSameYard)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(40)
    ->Unit(benchmark::kMillisecond);

void HectareAtTenCentimetres(benchmark::State& state) {
  const Model model = build_model(invented_yard(100.0, 200, 0.1, 1.8, 1.2, 2.6));
  for (auto _ : state) {
    const LeapSolver solver(model, at_resolution(0.1));
    benchmark::DoNotOptimize(solver.result().margin);
    note_stages(state, solver);
  }
}
BENCHMARK(HectareAtTenCentimetres)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1)
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace hummock::leap

BENCHMARK_MAIN();
