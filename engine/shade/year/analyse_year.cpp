// Hours of sun over a whole year.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/may_shade.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/sky_bins.h"

namespace hummock::shade {
namespace {

constexpr std::size_t kSweepShare = 20;  // sweep when more than 1 tile in so many is open
constexpr double kErrorBound = 0.001;    // share of cell-times, held by tests/shade/year_test.cpp

// Does every node of the tile face every sun of the range?
bool all_face(const Tile& t, const RunRange& run) {
  const auto most = [](double a0, double a1, double b0, double b1) {
    return std::max({a0 * b0, a0 * b1, a1 * b0, a1 * b1});
  };
  return most(t.gx0, t.gx1, run.lo.x, run.hi.x) + most(t.gy0, t.gy1, run.lo.y, run.hi.y) < 0.999;
}

struct MonthSums {
  std::array<double, 12> all{};  // hours every node of the tile has
  std::array<std::array<double, kTileNodes>, 12> each{};
};

class YearAnalysis {
 public:
  YearAnalysis(const Model& model, const Settings& settings)
      : place_(check_settings(model, settings)),
        fast_(model),
        grid_(grid_for(model.ground, settings.cell)),
        tiles_(ground_tiles(model, grid_)),
        groups_(group_tiles(tiles_)) {
    result_.year = settings.date.year;
    result_.error_bound_share = kErrorBound;
    bins_ = year_bins(place_, settings.date.year, settings.step_minutes, result_.sun_positions);
    result_.month_sun_hours.assign(12, geom::Raster(grid_));
    result_.sun_hours = geom::Raster(grid_);
    sums_.resize(tiles_.size());
  }

  Year run(const Progress& progress) {
    for (std::size_t b = 0; b < bins_.size(); ++b) {
      progress.step("shade of the year",
                    static_cast<double>(b) / static_cast<double>(bins_.size()));
      one_bin(bins_[b]);
    }
    tbb::parallel_for(std::size_t{0}, tiles_.size(),
                      [&](std::size_t t) { write(tiles_[t], sums_[t]); });
    progress.step("shade of the year", 1.0);
    return std::move(result_);
  }

 private:
  void one_bin(const SkyBin& bin) {
    std::vector<char> clear(tiles_.size(), 0);
    tbb::parallel_for(std::size_t{0}, groups_.size(), [&](std::size_t g) {
      const bool all = fast_.terrain().clear(groups_[g].box, bin.run);
      for (const std::size_t t : groups_[g].tiles) {
        clear[t] = all || fast_.terrain().clear(tiles_[t].box, bin.run) ? 1 : 0;
      }
    });
    std::vector<GroundStatus> sweeps(bin.suns.size());
    const auto open = std::count(clear.begin(), clear.end(), 0);
    if (static_cast<std::size_t>(open) * kSweepShare > clear.size()) {
      std::vector<SunRay> suns;
      for (const YearSun& s : bin.suns) suns.push_back(s.ray);
      sweeps = fast_.sweeps(tiles_, grid_, suns);
    }
    tbb::parallel_for(std::size_t{0}, groups_.size(), [&](std::size_t g) {
      std::vector<int> near_tile;
      const std::vector<int> near_group = fast_.near(groups_[g].box, bin.run, bin.along);
      for (const std::size_t t : groups_[g].tiles) {
        keep_near(near_group, tiles_[t].box, bin, near_tile);
        add_bin(tiles_[t], bin, near_tile, clear[t] != 0, sweeps, sums_[t]);
      }
    });
  }

  // The casters of `from` that could shade the box from some sun of the bin.
  void keep_near(const std::vector<int>& from, const geom::Box3& box, const SkyBin& bin,
                 std::vector<int>& near) const {
    near.clear();
    for (const int id : from) {
      const Caster& c = fast_.casters()[static_cast<std::size_t>(id)];
      if (may_shade(c.box, box, bin.run, bin.along)) near.push_back(id);
    }
  }

  void add_bin(const Tile& tile, const SkyBin& bin, const std::vector<int>& near, bool clear,
               const std::vector<GroundStatus>& sweeps, MonthSums& sums) const {
    const bool hills = fast_.rays().far().may_hide(bin.run);
    if (near.empty() && clear && !hills && all_face(tile, bin.run)) {
      for (std::size_t m = 0; m < 12; ++m) sums.all[m] += bin.month_hours[m];
      return;
    }
    TileBeam beam;
    for (std::size_t n = 0; n < bin.suns.size(); ++n) {
      const YearSun& s = bin.suns[n];
      fast_.tile(tile, s.ray, s.date, near, {clear, &sweeps[n]}, beam);
      const auto m = static_cast<std::size_t>(s.date.month - 1);
      if (beam.uniform) {
        sums.all[m] += beam.value * s.hours;
        continue;
      }
      auto& month = sums.each[m];
      for (std::size_t k = 0; k < kTileNodes; ++k) month[k] += beam.each[k] * s.hours;
    }
  }

  void write(const Tile& tile, const MonthSums& sums) {
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tile.inside[k] == 0) continue;
      const std::size_t n = tile.node(grid_, k);
      double year = 0.0;
      for (std::size_t m = 0; m < 12; ++m) {
        const double hours = sums.all[m] + sums.each[m][k];
        const int month = static_cast<int>(m) + 1;
        const sun::Date from{result_.year, month, 1};
        const sun::Date to =
            month == 12 ? sun::Date{result_.year + 1, 1, 1} : sun::Date{result_.year, month + 1, 1};
        const int days = sun::day_number(to) - sun::day_number(from);
        result_.month_sun_hours[m].values[n] = static_cast<float>(hours / days);
        year += hours;
      }
      result_.sun_hours.values[n] = static_cast<float>(year);
    }
  }

  const Place& place_;
  FastBeam fast_;
  geom::Grid grid_;
  std::vector<Tile> tiles_;
  std::vector<TileGroup> groups_;
  std::vector<SkyBin> bins_;
  std::vector<MonthSums> sums_;  // of each tile
  Year result_;
};

}  // namespace

Year year(const Model& model, const Settings& settings, const Progress& progress) {
  return YearAnalysis(model, settings).run(progress);
}

}  // namespace hummock::shade
