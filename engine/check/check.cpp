#include "engine/check/check.h"

#include <algorithm>
#include <chrono>

#include "engine/check/figures.h"

namespace hummock {

const std::vector<std::string>& analysis_names() {
  static const std::vector<std::string> names{
      "space", "relief", "leap",       "dig",    "openings", "entry",     "shade",
      "sight", "water",  "earthworks", "houses", "burrows",  "quantities"};
  return names;
}

namespace {

void refuse_unknown(const std::set<std::string>& only) {
  const auto& names = analysis_names();
  for (const std::string& name : only) {
    if (std::find(names.begin(), names.end(), name) != names.end()) continue;
    std::string allowed;
    for (const std::string& known : names) allowed += (allowed.empty() ? "" : ", ") + known;
    throw InputError({"", 0, "--only"}, "\"" + name + "\"", allowed);
  }
}

// Burrow siting needs the day's shade and the ponds: run them too when only burrows are asked for.
std::set<std::string> with_needs(std::set<std::string> only) {
  if (only.count("burrows") != 0) only.insert({"shade", "water"});
  return only;
}

// A misspelt requirement must not pass silently.
void refuse_unknown_requirements(const Site& site) {
  const auto& names = analysis_names();
  for (const auto* list : {&site.species.requirements, &site.requirements}) {
    for (const Requirement& r : *list) {
      const std::string analysis = r.what.substr(0, r.what.find('.'));
      if (std::find(names.begin(), names.end(), analysis) != names.end()) continue;
      std::string allowed;
      for (const std::string& name : names) allowed += (allowed.empty() ? "" : ", ") + name;
      throw InputError(r.where, "\"" + r.what + "\"", "a figure of one of " + allowed);
    }
  }
}

class Run {
 public:
  Run(const Model& model, const CheckOptions& options, const Progress& progress)
      : model_(model), options_(options), progress_(progress), only_(with_needs(options.only)) {}

  // Runs `analysis` when asked for and keeps how long it took; `why_not` empty = it can run.
  template <class Result, class Analysis>
  void stage(const std::string& name, std::optional<Result>& into, const std::string& why_not,
             const Analysis& analysis) {
    ++index_;
    if (!only_.empty() && only_.count(name) == 0) {
      results.not_run[name] = "not asked for";
      return;
    }
    if (!why_not.empty()) {
      results.not_run[name] = why_not;
      return;
    }
    const auto& names = analysis_names();
    progress_.step(name, static_cast<double>(index_ - 1) / static_cast<double>(names.size()));
    const auto start = std::chrono::steady_clock::now();
    into = analysis();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    results.seconds.emplace_back(name, took.count());
  }

  CheckResults results;

 private:
  const Model& model_;
  const CheckOptions& options_;
  const Progress& progress_;
  std::set<std::string> only_;
  int index_ = 0;
};

std::string need_place(const Model& model) {
  return model.site.place ? "" : "the site has no [place]";
}

}  // namespace

sun::Date design_day(const Site& site, const CheckOptions& options) {
  if (options.date) return *options.date;
  const bool south = site.place && site.place->latitude < 0.0;
  return south ? sun::Date{2026, 12, 21} : sun::Date{2026, 6, 21};
}

leap::Settings leap_settings(const Site& site, const CheckOptions& options) {
  leap::Settings settings = options.leap;
  for (const auto* list : {&site.species.requirements, &site.requirements}) {
    for (const Requirement& r : *list) {
      if (r.what == "leap.margin" && r.at_least) {
        settings.required_margin = std::max(settings.required_margin, *r.at_least);
      }
    }
  }
  return settings;
}

CheckResults run_check(const Model& model, const CheckOptions& options, const Progress& progress) {
  refuse_unknown(options.only);
  refuse_unknown_requirements(model.site);
  const Site& site = model.site;
  // Stages report their own share of the work only through `cancel`: the caller's bar counts
  // stages.
  Progress quiet;
  quiet.cancel = progress.cancel;

  shade::Settings light;
  light.date = design_day(site, options);
  light.step_minutes = options.shade_step_minutes;

  Run run(model, options, progress);
  CheckResults& r = run.results;
  run.stage("space", r.space, "", [&] { return space::analyse(model); });
  run.stage("relief", r.relief, "", [&] { return relief::analyse(model); });
  run.stage("leap", r.leap, "",
            [&] { return leap::analyse(model, leap_settings(site, options), quiet); });
  run.stage("dig", r.dig, "", [&] { return dig::analyse(model); });
  run.stage("openings", r.openings, "", [&] { return openings::analyse(model); });
  run.stage("entry", r.entry, site.boundary.gates.empty() ? "the site draws no gate" : "",
            [&] { return entry::analyse(model); });
  run.stage("shade", r.shade, need_place(model),
            [&] { return shade::analyse(model, light, quiet); });
  run.stage("sight", r.sight, sight::anyone_looks(site) ? "" : "the site draws no viewing place",
            [&] { return sight::analyse(model, {}, quiet); });
  run.stage("water", r.water, "", [&] { return water::analyse(model); });
  run.stage("earthworks", r.earthworks, "", [&] { return earthworks::analyse(model); });
  run.stage("houses", r.houses, site.houses.empty() ? "the site draws no house" : "", [&] {
    return houses::analyse(model, site.climate.empty() ? std::vector<houses::ClimateHour>{}
                                                       : houses::climate_of(site));
  });
  run.stage("burrows", r.burrows, need_place(model),
            [&] { return burrows::analyse(model, *r.shade, *r.water); });
  run.stage("quantities", r.quantities, "", [&] { return quantities::schedule(model); });
  r.brief = judge(site, figures_of(r, model), r.not_run);
  progress.step("done", 1.0);
  return std::move(run.results);
}

}  // namespace hummock
