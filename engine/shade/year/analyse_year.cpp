// Hours of sun over a whole year.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/may_shade.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"
#include "engine/shade/year/leaves_near.h"
#include "engine/shade/year/month_sums.h"
#include "engine/shade/year/sun_patches.h"

namespace hummock::shade {
namespace {

constexpr std::size_t kSweepShare = 20;  // sweep when more than 1 tile in so many is open
// Shares of the hours, held by tests/shade_year.
constexpr double kErrorBound = 0.001, kErrorOnGrid = 0.002;
constexpr double kSweepBytes = 1e8;  // at once; layout of the work
constexpr std::size_t kPatchesAtOnce = 16;

// Does every node of the tile face every sun of the range?
bool all_face(const Tile& t, const RunRange& run) {
  const auto most = [](double a0, double a1, double b0, double b1) {
    return std::max({a0 * b0, a0 * b1, a1 * b0, a1 * b1});
  };
  return most(t.gx0, t.gx1, run.lo.x, run.hi.x) + most(t.gy0, t.gy1, run.lo.y, run.hi.y) < 0.999;
}

// A patch of the sky at work.
struct AtWork {
  const SunPatch* patch = nullptr;
  std::vector<char> clear;           // of each tile: the ground shades it from none of its suns
  std::vector<GroundStatus> sweeps;  // one a sun
  bool hills = false;                // the land beyond may hide some
};

class YearAnalysis {
 public:
  YearAnalysis(const Model& model, const Settings& settings)
      : place_(check_settings(model, settings)),
        fast_(model),
        grid_(grid_for(model.ground, settings.cell)),
        tiles_(ground_tiles(model, grid_)),
        groups_(group_tiles(tiles_)),
        sums_(grid_, tiles_) {
    YearSuns suns =
        year_suns(fast_, place_, settings.date.year, settings.step_minutes, settings.every_step);
    result_.year = settings.date.year;
    result_.error_bound_share = suns.on_grid ? kErrorOnGrid : kErrorBound;
    result_.sun_positions = suns.steps;
    result_.suns_looked_at = suns.suns.size();
    leaves_ = std::move(suns.leaves);
    patches_ = sun_patches(std::move(suns.suns));
  }

  Year run(const Progress& progress) {
    for (std::size_t first = 0; first < patches_.size();) {
      progress.step("shade of the year",
                    static_cast<double>(first) / static_cast<double>(patches_.size()));
      const std::size_t last = as_many_as_fit(first);
      some_patches(first, last);
      first = last;
    }
    sums_.write(result_);
    progress.step("shade of the year", 1.0);
    return std::move(result_);
  }

 private:
  // Patches from `first` whose sweeps fit together.
  std::size_t as_many_as_fit(std::size_t first) const {
    std::size_t last = first;
    double bytes = 0.0;
    while (last < patches_.size() && last < first + kPatchesAtOnce) {
      bytes += static_cast<double>(patches_[last].suns.size()) * static_cast<double>(grid_.size());
      if (last > first && bytes > kSweepBytes) break;
      ++last;
    }
    return last;
  }

  void some_patches(std::size_t first, std::size_t last) {
    std::vector<AtWork> work;
    for (std::size_t p = first; p < last; ++p) work.push_back(prepare(patches_[p]));
    tbb::parallel_for(std::size_t{0}, groups_.size(), [&](std::size_t g) {
      for (const AtWork& w : work) one_group(groups_[g], w);
    });
  }

  AtWork prepare(const SunPatch& patch) const {
    AtWork w{
        &patch, std::vector<char>(tiles_.size(), 0), {}, fast_.rays().far().may_hide(patch.run)};
    tbb::parallel_for(std::size_t{0}, groups_.size(), [&](std::size_t g) {
      const bool all = fast_.terrain().clear(groups_[g].box, patch.run);
      for (const std::size_t t : groups_[g].tiles) {
        w.clear[t] = all || fast_.terrain().clear(tiles_[t].box, patch.run) ? 1 : 0;
      }
    });
    w.sweeps.resize(patch.suns.size());
    const auto open = std::count(w.clear.begin(), w.clear.end(), 0);
    if (static_cast<std::size_t>(open) * kSweepShare > w.clear.size()) {
      std::vector<SunRay> suns;
      for (const YearSun& s : patch.suns) suns.push_back(s.ray);
      w.sweeps = fast_.sweeps(tiles_, grid_, suns);
    }
    return w;
  }

  void one_group(const TileGroup& group, const AtWork& w) {
    const SunPatch& patch = *w.patch;
    const std::vector<int> near = fast_.near(group.box, patch.run, patch.along);
    std::vector<std::size_t> open;
    for (const std::size_t t : group.tiles) {
      if (!lit_by_all(t, near, w)) {
        open.push_back(t);
        continue;
      }
      for (std::size_t m = 0; m < 12; ++m) sums_.add(t, m, patch.hours[m]);
    }
    if (!open.empty()) sun_by_sun(group, open, near, w);
  }

  // Nothing comes between the tile and any sun of the patch, and it faces them all.
  bool lit_by_all(std::size_t t, const std::vector<int>& near, const AtWork& w) const {
    const Tile& tile = tiles_[t];
    const SunPatch& patch = *w.patch;
    if (w.clear[t] == 0 || w.hills || !all_face(tile, patch.run)) return false;
    const MayShade may_shade(tile.box, patch.run, patch.along);
    return std::none_of(near.begin(), near.end(),
                        [&](int id) { return may_shade(caster(id).box); });
  }

  void sun_by_sun(const TileGroup& group, const std::vector<std::size_t>& open,
                  const std::vector<int>& near, const AtWork& w) {
    const LeavesNear leaves(fast_.casters(), near, leaves_);
    NearShadows shadows;
    TileBeam beam;
    for (std::size_t n = 0; n < w.patch->suns.size(); ++n) {
      const YearSun& s = w.patch->suns[n];
      const std::vector<int> of_sun = those_before(s.ray, group.box, near);
      leaves.over_states(s.hours, [&](std::size_t state, const auto& hours_of) {
        fast_.lay_out(group.box, s.ray, leaves_[state], of_sun, shadows);
        for (const std::size_t t : open) {
          fast_.tile(tiles_[t], shadows, {w.clear[t] != 0, &w.sweeps[n]}, beam);
          for (const SunHours& h : s.hours)
            if (hours_of(h)) sums_.add(t, h.month, h.hours, beam);
        }
      });
    }
  }

  // The casters of `near` that could shade the box from this sun.
  std::vector<int> those_before(const SunRay& sun, const geom::Box3& box,
                                const std::vector<int>& near) const {
    std::vector<int> out;
    const MayShade may_shade(box, {sun.run, sun.run}, unit(sun.run));
    for (const int id : near)
      if (may_shade(caster(id).box)) out.push_back(id);
    return out;
  }

  const Caster& caster(int id) const { return fast_.casters()[static_cast<std::size_t>(id)]; }

  const Place& place_;
  FastBeam fast_;
  geom::Grid grid_;
  std::vector<Tile> tiles_;
  std::vector<TileGroup> groups_;
  MonthSums sums_;
  std::vector<sun::Date> leaves_;  // a day of each state
  std::vector<SunPatch> patches_;
  Year result_;
};

}  // namespace

Year year(const Model& model, const Settings& settings, const Progress& progress) {
  return YearAnalysis(model, settings).run(progress);
}

}  // namespace hummock::shade
