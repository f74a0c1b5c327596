#include "engine/check/check.h"

#include <algorithm>
#include <chrono>
#include <mutex>
#include <thread>

#include "engine/brief/asked.h"
#include "engine/brief/either.h"
#include "engine/brief/when.h"
#include "engine/check/catalogue.h"
#include "engine/check/figures.h"
#include "engine/check/side_by_side.h"
#include "engine/check/unseen_ground.h"
#include "engine/site/doubtful.h"
#include "engine/usable/start.h"

namespace hummock {
namespace {

std::string all_names() {
  std::string names;
  for (const Analysis& a : analyses()) names += (names.empty() ? "" : ", ") + a.name;
  return names;
}

void refuse_unknown(const std::set<std::string>& only) {
  for (const std::string& name : only) {
    if (find_analysis(name) == nullptr)
      throw InputError({"", 0, "--only"}, "\"" + name + "\"", all_names());
  }
}

// Those asked for, with those whose results they read.
std::set<std::string> with_needs(std::set<std::string> only) {
  if (only.empty()) return {analysis_names().begin(), analysis_names().end()};
  const auto& list = analyses();
  for (auto a = list.rbegin(); a != list.rend(); ++a) {
    if (only.count(a->name) > 0) only.insert(a->after.begin(), a->after.end());
  }
  return only;
}

// What runs on this site, in order; the rest goes into `not_run`.
std::vector<const Analysis*> chosen(const Site& site, const std::set<std::string>& asked,
                                    std::map<std::string, NotRun>& not_run) {
  std::vector<const Analysis*> list;
  for (const Analysis& a : analyses()) {
    std::optional<NotRun> why = a.cannot(site);
    for (const std::string& before : a.after) {
      if (const auto found = not_run.find(before); !why && found != not_run.end())
        why = found->second;
    }
    if (asked.count(a.name) == 0) why = NotRun::not_asked;
    if (why) {
      not_run[a.name] = *why;
    } else {
      list.push_back(&a);
    }
  }
  return list;
}

// Where some of them asks where the animal starts.
void refuse_bad_start(const std::vector<const Analysis*>& list, const Model& model) {
  const bool asked = std::any_of(list.begin(), list.end(), [](const Analysis* a) {
    const auto& reads = a->depends_on;
    return std::find(reads.begin(), reads.end(), "leap") != reads.end();
  });
  if (asked) usable::require_start(model);
}

// Runs one analysis after another for one check, told and timed.
class Stages {
 public:
  Stages(const Model& model, CheckResults& results, const Progress& progress, std::size_t count)
      : model_(model), results_(results), progress_(progress), count_(count), seconds_(count) {
    // Stages report their own share of the work only through `cancel`: the caller's bar counts
    // stages.
    quiet_.cancel = progress.cancel;
  }

  void run(const Analysis& a, std::size_t index) {
    {
      const std::lock_guard lock(telling_);
      progress_.step(a.name, static_cast<double>(started_++) / static_cast<double>(count_));
    }
    timed(index, [&] { a.run(model_, results_, quiet_); });
  }

  // After it has run.
  void ask_what_it_rests_on(const Analysis& a, std::size_t index) {
    timed(index, [&] { results_.rests_on.at(a.name) = a.rests_on(model_, results_, quiet_); });
  }

  double seconds(std::size_t index) const { return seconds_[index]; }

 private:
  template <class Work>
  void timed(std::size_t index, const Work& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    seconds_[index] += took.count();
  }

  const Model& model_;
  CheckResults& results_;
  const Progress& progress_;
  Progress quiet_;
  std::size_t count_;
  std::vector<double> seconds_;
  std::mutex telling_;
  std::size_t started_ = 0;
};

// What it rests on is asked about as much work as it was.
constexpr double kRestsOnWork = 0.5;  // of that of the analysis; numeric, orders jobs only

// Each analysis is a job, and what it rests on another, that nothing waits for.
std::vector<Job> jobs_of(const std::vector<const Analysis*>& list, bool explore, Stages& stages) {
  std::vector<Job> jobs;
  std::vector<std::size_t> job_of;
  for (std::size_t k = 0; k < list.size(); ++k) {
    const Analysis& a = *list[k];
    Job job;
    job.work = a.work;
    job.run = [&stages, &a, k] { stages.run(a, k); };
    for (std::size_t before = 0; before < k; ++before)
      if (std::find(a.after.begin(), a.after.end(), list[before]->name) != a.after.end())
        job.after.push_back(job_of[before]);
    job_of.push_back(jobs.size());
    jobs.push_back(std::move(job));
    if (a.rests_on == nullptr || !explore) continue;
    jobs.push_back({{job_of[k]},
                    [&stages, &a, k] { stages.ask_what_it_rests_on(a, k); },
                    kRestsOnWork * a.work});
  }
  return jobs;
}

void run_all(const std::vector<const Analysis*>& list, const Model& model, CheckResults& results,
             const Progress& progress) {
  Stages stages(model, results, progress, list.size());
  for (const Analysis* a : list) {
    // A place of its own beforehand: the maps must not change while jobs run.
    a->make_place(results);
    if (a->rests_on != nullptr) results.rests_on[a->name];
  }
  run_side_by_side(jobs_of(list, results.settings.explore, stages),
                   std::max(1U, std::thread::hardware_concurrency()));
  for (std::size_t k = 0; k < list.size(); ++k)
    results.seconds.emplace_back(list[k]->name, stages.seconds(k));
}

// Whose figures are of certain days: that of the sun, and those that read it.
std::set<std::string> of_days() {
  std::set<std::string> names{"shade"};
  for (const Analysis& a : analyses())
    if (std::any_of(a.after.begin(), a.after.end(),
                    [&](const std::string& name) { return names.count(name) > 0; }))
      names.insert(a.name);
  return names;
}

bool asks_how_cold(const Site& site) {
  const std::vector<Asked> rows = rows_asked(site);
  return std::any_of(rows.begin(), rows.end(),
                     [](const Asked& a) { return a.row->when && a.row->when->below; });
}

// Read here where the houses, which read it too, were left out.
void take_climate(const Site& site, const CheckResults& results, Circumstances& now) {
  if (site.climate.empty() || !asks_how_cold(site)) return;
  std::size_t rows = 0;
  if (results.houses) {
    now.coldest = results.houses->coldest_c;
    rows = results.houses->climate_hours;
  } else {
    const auto hours = houses::climate_of(site);
    for (const houses::ClimateHour& hour : hours)
      now.coldest = std::min(now.coldest.value_or(hour.temperature_c), hour.temperature_c);
    rows = hours.size();
  }
  const bool hourly =
      !accepted(site.accept, "climate-step") && !accepted(site.accept, "climate-times");
  now.whole_year = hourly && (rows == 8760 || rows == 8784);  // of an hour each: a year
}

Circumstances circumstances_of(const Site& site, const CheckResults& results) {
  Circumstances now;
  now.of_days = of_days();
  now.days = results.settings.shade.hot_days;
  now.days.push_back(results.settings.shade.date);
  take_climate(site, results, now);
  return now;
}

}  // namespace

CheckResults run_check(const Model& model, const CheckOptions& options, const Progress& progress) {
  refuse_unknown(options.only);
  refuse_bad_requirements(model.site);
  CheckResults results;
  results.settings = resolve(model.site, options);
  const auto list = chosen(model.site, with_needs(options.only), results.not_run);
  refuse_bad_start(list, model);
  run_all(list, model, results, progress);
  judge_brief(model, results);
  progress.step("done", 1.0);
  return results;
}

void judge_brief(const Model& model, CheckResults& results) {
  results.brief = judge(model.site, figures_of(results, model), results.not_run, results.rests_on);
  rest_on_unseen_ground(model, results.brief);
  apply_when(model.site, circumstances_of(model.site, results), results.brief);
  settle_eithers(results.brief);
}

}  // namespace hummock
