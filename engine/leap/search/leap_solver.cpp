#include "engine/leap/search/leap_solver.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <chrono>

#include "engine/leap/physics/known_flights.h"
#include "engine/leap/places/site_places.h"
#include "engine/leap/rows/escape.h"
#include "engine/leap/rows/kept_rows.h"
#include "engine/leap/rows/notes.h"
#include "engine/leap/rows/objects.h"
#include "engine/leap/rows/remedies.h"
#include "engine/leap/rows/sensitivity.h"
#include "engine/leap/search/leap_maps.h"
#include "engine/leap/search/site_search.h"

namespace hummock::leap {

using geom::Box3;

struct LeapSolver::Inner {
  Settings settings;
  PlaceRules rules;
  LinkRules links;
  SitePlaces places;
  std::vector<PatchPtr> roof;
  std::vector<PatchPtr> patches;  // ground, things, exits
  SearchResult reached;
  std::vector<Furniture> things;
  std::vector<ExitCost> exit_costs;
  std::optional<KnownFlights> known;
  Result result;
  std::vector<std::pair<std::string, double>> stages;
  std::chrono::steady_clock::time_point since;

  void begin() {
    stages.clear();
    since = std::chrono::steady_clock::now();
  }
  void stage(const char* name) {
    const auto now = std::chrono::steady_clock::now();
    stages.emplace_back(name, std::chrono::duration<double>(now - since).count());
    since = now;
  }

  SearchContext scene(const Model& model) const {
    return {&model, &patches, &reached, &roof, links, settings, &*known};
  }

  void search_all(const Model& model, const Progress& progress) {
    reached = search_site(model, patches, links, progress, &*known);
    stage("search");
  }

  void make_rows(const Model& model, const std::vector<char>& redo) {
    const SearchContext s = scene(model);
    exit_costs.resize(things.size());
    result.objects.resize(things.size());
    tbb::parallel_for(std::size_t{0}, things.size(), [&](std::size_t k) {
      if (redo[k] != 0) exit_costs[k] = exit_cost(s, things[k]);
      ExitCost cost = exit_costs[k];
      add_way_over_things(s, things[k], cost);
      result.objects[k] = row_of(s, things[k], cost);
    });
    stage("rows");
  }

  void conclude(const Model& model) {
    const SearchContext s = scene(model);
    tell_escape(s, rules, places.ground.squares->side, result);
    result.living_area_m2 = places.ground.living_area_m2;
    result.ways = ways(s);
    if (settings.remedies) find_remedies(s, {rules, places, exit_costs}, things, result);
    tell_roof_strike(s, result);
    result.sweep = sweep(model.site.species, result);
    add_notes(s, rules, result);
    keep_nearest_rows(settings.max_results, result);
    stage("conclusion");
  }
};

LeapSolver::LeapSolver(const Model& model, const Settings& settings, const Progress& progress)
    : inner_(std::make_unique<Inner>()) {
  Inner& in = *inner_;
  in.settings = settings;
  in.rules = place_rules(model.site.species, settings);
  in.links = link_rules(in.rules.ability, settings);
  in.begin();
  progress.step("leap: places", 0.0);
  in.places = site_places(model, in.rules);
  in.roof = roof_patches(model, std::max(0.1, 2.0 * in.rules.resolution));
  in.stage("places");
  in.patches = in.places.all();
  in.known.emplace(std::make_shared<FlightMemo>(), in.patches, std::vector<Box3>{});
  in.search_all(model, progress);
  in.things = elevated_furniture(model, in.patches);
  in.make_rows(model, std::vector<char>(in.things.size(), 1));
  in.conclude(model);
  progress.step("leap", 1.0);
}

LeapSolver::~LeapSolver() = default;
LeapSolver::LeapSolver(LeapSolver&&) noexcept = default;
LeapSolver& LeapSolver::operator=(LeapSolver&&) noexcept = default;

const Result& LeapSolver::result() const {
  return inner_->result;
}
const std::vector<std::pair<std::string, double>>& LeapSolver::stages() const {
  return inner_->stages;
}

const Result& LeapSolver::update(const Model& model, int object, const Progress& progress) {
  Inner& in = *inner_;
  if (in.places.box_of_part.size() != model.parts.size()) {
    *this = LeapSolver(model, in.settings, progress);
    return inner_->result;
  }
  in.begin();
  const std::vector<PatchPtr> before = in.places.raised;
  const std::vector<Box3> changed = changed_boxes(in.places, model, object);
  const std::vector<char> part_changed = sample_again(in.places, model, in.rules, changed);
  in.stage("places");
  in.patches = in.places.all();
  in.known.emplace(in.known->after(in.patches, changed));
  in.search_all(model, progress);
  in.things = elevated_furniture(model, in.patches);
  in.result = {};
  in.make_rows(model, rows_to_redo(in.things, in.exit_costs, part_changed, changed,
                                   same_ways(before, in.places.raised)));
  in.conclude(model);
  return in.result;
}

geom::Raster LeapSolver::ground_required_leap(const Model& model) const {
  const Inner& in = *inner_;
  return ground_map(model, TouchLeap(in.patches, in.reached, in.links), in.places.ground);
}

std::map<std::string, std::vector<float>> LeapSolver::surface_required_leap(
    const Model& model) const {
  const Inner& in = *inner_;
  return surface_map(model, TouchLeap(in.patches, in.reached, in.links));
}

}  // namespace hummock::leap
