#include "viewer/work/study.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "engine/maps/map_layers.h"
#include "engine/usable/kept_answers.h"
#include "viewer/work/merge_results.h"

namespace hummock::viewer {
namespace {

constexpr int kCornerRays = 16;
constexpr double kCurveCell = 0.25;   // m
constexpr double kCornerReach = 1.6;  // m

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

Built picture_of(std::uint64_t revision, std::shared_ptr<const Site> site,
                 std::shared_ptr<const Model> model, const Built* before = nullptr) {
  Built out;
  out.revision = revision;
  if (before != nullptr) {
    const Drawn drawn{*before->model, *before->scene};
    out.scene = std::make_shared<const Scene>(build_scene(*model, &drawn));
  } else {
    out.scene = std::make_shared<const Scene>(build_scene(*model));
  }
  out.picker = std::make_shared<const Picker>(model);
  out.site = std::move(site);
  out.model = std::move(model);
  return out;
}

Built build(std::uint64_t revision, std::shared_ptr<const Site> site, const Progress& progress) {
  Model model = build_model(*site, {}, progress);
  usable::keep_answers(model);
  return picture_of(revision, std::move(site), std::make_shared<const Model>(std::move(model)));
}

void put_in_words(Judged& judged) {
  judged.findings = findings(*judged.model, judged.results);
  judged.verdict = verdict_sentence(*judged.model, judged.results);
}

// The quick half, beside the slow half of the check before, if there was one.
Judged judge_quick(const Built& built, CheckOptions options, const std::optional<Judged>& before,
                   const Progress& progress) {
  Judged out;
  out.revision = built.revision;
  out.model = built.model;
  options.only = quick_analyses();
  out.results = run_check(*built.model, options, progress);
  out.stale = slow_analyses();
  if (before) take_over(out.results, before->results, slow_analyses());
  put_in_words(out);
  return out;
}

void judge_slow(Judged& judged, CheckOptions options, const Progress& progress) {
  options.only = slow_analyses();
  take_over(judged.results, run_check(*judged.model, options, progress), slow_analyses());
  judged.stale.clear();
  put_in_words(judged);
}

// While a thing is in hand, what it is and does is asked, not what would mend it: remedies are
// whole answers each, and come with the check once it is let go.
leap::Settings in_hand(const Site& site, const CheckOptions& options) {
  leap::Settings settings = resolve(site, options).leap;
  settings.remedies = false;
  return settings;
}

// Shade at one time is one minus the share of the beam that arrives.
geom::Raster shade_at(const Model& model, const sun::Position& sun) {
  geom::Raster raster = shade::beam(model, sun, {});
  for (float& v : raster.values) v = 1.0F - v;
  return raster;
}

}  // namespace

bool Study::figures_current() const {
  return trouble_.empty() && judged_ && judged_->revision == asked_ && judged_->stale.empty() &&
         !proposing_;
}

void Study::cannot_read(std::uint64_t revision, std::string why) {
  asked_ = revision;
  main_.cancel();
  trouble_ = std::move(why);
}

std::optional<double> Study::cap_at(Vec2 at) const {
  if (!cap_) return std::nullopt;
  const auto& grid = cap_->grid;
  const int i = static_cast<int>(std::lround((at.x - grid.x0) / grid.cell));
  const int j = static_cast<int>(std::lround((at.y - grid.y0) / grid.cell));
  if (!grid.holds(i, j) || !std::isfinite(cap_->at(i, j))) return std::nullopt;
  return cap_->at(i, j);
}

void Study::show(std::uint64_t revision, std::shared_ptr<const Site> site,
                 const CheckOptions& options) {
  asked_ = revision;
  options_ = options;
  main_.ask([this, revision, site = std::move(site), options,
             before = judged_](const Progress& progress) {
    try {
      progress.step("building the model", 0.1);
      const Built built = build(revision, site, progress);
      inbox_.post([this, built] {
        if (built.revision != asked_) return;
        trouble_.clear();
        built_ = built;
        if (on_built) on_built(built);
        refine(built);
      });
      Judged judged = judge_quick(built, options, before, progress);
      post_judged(judged);
      // At the margin that the brief asks for, as the check and the map have it.
      const leap::Settings leaps = in_hand(built.model->site, options);
      auto cap =
          std::make_shared<geom::Raster>(leap::height_cap(*built.model, leaps.required_margin));
      inbox_.post([this, cap, revision] {
        if (revision == asked_) cap_ = std::move(*cap);
      });
      // Kept ready for the first drag, before the slow half.
      ReadySolver ready{revision, -1,
                        std::make_shared<leap::LeapSolver>(*built.model, leaps, progress)};
      inbox_.post([this, ready] {
        if (ready.revision == asked_) ready_ = ready;
      });
      judge_slow(judged, options, progress);
      post_judged(judged);
    } catch (const Cancelled&) {
      throw;
    } catch (const std::exception& error) {
      inbox_.post([this, revision, what = std::string(error.what())] {
        if (revision == asked_) trouble_ = what;
      });
    }
  });
}

void Study::post_judged(const Judged& judged) {
  inbox_.post([this, copy = std::make_shared<Judged>(judged)] {
    if (copy->revision != asked_) return;
    judged_ = std::move(*copy);
    if (on_judged) on_judged();
  });
}

void Study::refine(const Built& built) {
  corner_worker_.ask([this, built](const Progress& progress) {
    auto scene = std::make_shared<Scene>(*built.scene);
    shade_corners(*scene, *built.model, kCornerRays, kCornerReach, progress);
    inbox_.post([this, scene, revision = built.revision] {
      if (built_ && built_->revision == revision && revision == asked_ && on_corner_shade)
        on_corner_shade(scene);
    });
  });
}

void Study::paint(const LayerWish& wish) {
  if (!built_) return;
  paint_.ask([this, wish, built = *built_](const Progress& progress) {
    try {
      auto painted = std::make_shared<Painted>();
      painted->revision = built.revision;
      painted->layer = wish.layer;
      painted->key = wish.key;
      painted->raster = wish.layer == "shade" && wish.sun
                            ? shade_at(*built.model, *wish.sun)
                            : maps::compute(*built.model, wish.layer, wish.options, progress);
      inbox_.post([this, painted] {
        paint_trouble_.clear();
        painted_ = std::move(*painted);
        if (on_painted) on_painted();
      });
    } catch (const Cancelled&) {
      throw;
    } catch (const std::exception& error) {
      inbox_.post([this, what = std::string(error.what())] {
        paint_trouble_ = what;
        painted_.reset();
        if (on_painted) on_painted();
      });
    }
  });
}

void Study::shade_day(sun::Date date, double step_minutes) {
  if (!built_ || !built_->model->site.place) return;
  auto sky = day_ && day_revision_ == built_->revision ? day_->sky : nullptr;
  paint_.ask([this, built = *built_, date, step_minutes, sky](const Progress& progress) {
    try {
      shade::Settings settings;
      settings.date = date;
      settings.step_minutes = step_minutes;
      // A curve of the whole yard needs no fine ground.
      settings.cell = std::max(kCurveCell, built.model->ground.grid.cell);
      auto day =
          std::make_shared<shade::Day>(shade::analyse(*built.model, settings, progress, sky));
      inbox_.post([this, day, revision = built.revision] {
        day_ = std::move(*day);
        day_revision_ = revision;
      });
    } catch (const Cancelled&) {
      throw;
    } catch (const std::exception& error) {
      inbox_.post([this, what = std::string(error.what())] { paint_trouble_ = what; });
    }
  });
}

void Study::propose(Site site, int object) {
  proposing_ = true;
  main_.cancel();
  corner_worker_.cancel();
  Proposal proposal{std::move(site), object, ++serial_};
  if (live_running_)
    waiting_ = std::move(proposal);
  else
    take_up(std::move(proposal));
}

// The kept solver, when all that differs from what it last saw is this one object; else from anew.
leap::Result Study::answer(const Model& model, int object, ReadySolver& ready,
                           const CheckOptions& options, const Progress& progress) {
  const bool fits = object >= 0 && ready.solver && (ready.object < 0 || ready.object == object);
  if (!fits) return leap::analyse(model, in_hand(model.site, options), progress);
  ready.object = object;
  return ready.solver->update(model, object, progress);
}

void Study::take_up(Proposal proposal) {
  live_running_ = true;
  auto shared = std::make_shared<const Proposal>(std::move(proposal));
  auto ready = std::make_shared<ReadySolver>();
  if (ready_.revision == asked_) *ready = std::exchange(ready_, {});
  live_worker_.ask([this, shared, ready, revision = asked_, options = options_,
                    before = built_](const Progress& progress) {
    const auto start = std::chrono::steady_clock::now();
    auto live = std::make_shared<Live>();
    live->serial = shared->serial;
    Built built;
    try {
      live->site = std::make_shared<const Site>(shared->site);
      live->model = std::make_shared<const Model>(build_model(shared->site, {}, progress));
      live->leap = answer(*live->model, shared->object, *ready, options, progress);
      live->seconds = seconds_since(start);
      // The answer first, its picture after: the dragged thing is drawn in its place meanwhile.
      inbox_.post([this, live] {
        if (!proposing_) return;
        live_ = *live;
        if (on_live) on_live();
      });
      built = picture_of(revision, live->site, live->model, before ? &*before : nullptr);
    } catch (const std::exception&) {
      // Cannot be built there, or nobody waits: the answer before stays, marked by its serial.
      // Broken off half way the solver may be of neither state.
      ready->solver.reset();
    }
    inbox_.post([this, built, ready] {
      live_running_ = false;
      if (ready->solver && ready->revision == asked_) ready_ = *ready;
      if (built.model && proposing_ && on_live_built) on_live_built(built);
      if (waiting_ && proposing_) take_up(*std::exchange(waiting_, std::nullopt));
    });
  });
}

void Study::end_proposals() {
  proposing_ = false;
  waiting_.reset();
  live_.reset();
  live_worker_.cancel();
}

}  // namespace hummock::viewer
