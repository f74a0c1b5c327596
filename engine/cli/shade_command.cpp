// hummock shade: a day's sun and shade (or a year's) as JSON, tables, rasters and pictures.
#include <fmt/core.h>
#include <tbb/parallel_for.h>

#include <exception>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "engine/base/atomic_file.h"
#include "engine/base/json_text.h"
#include "engine/cli/build_flags.h"
#include "engine/cli/commands.h"
#include "engine/cli/terminal.h"
#include "engine/draw/site_plan.h"
#include "engine/maps/map_layers.h"
#include "engine/shade/day/kept_beams.h"
#include "engine/shade/day/shade_csv.h"
#include "engine/shade/shade.h"
#include "engine/shade/shade_json.h"

namespace hummock::cli {
namespace {

struct ShadeFlags {
  std::string site;
  std::string folder;
  std::string date;
  double step = 10.0;
  double cell = 0.0;
  bool year = false;
  bool seasons = false;
  bool disc = false;
  bool every_step = false;
  BuildFlags build;
};

namespace fs = std::filesystem;

shade::Settings settings_of(const ShadeFlags& flags, const Site& site) {
  CheckOptions options;
  if (!flags.date.empty()) options.date = sun::parse_date(flags.date, {"", 0, "--date"});
  options.shade_step_minutes = flags.step;
  shade::Settings settings = resolve(site, options).shade;
  settings.cell = flags.cell;
  settings.sun_disc = flags.disc;
  settings.every_step = flags.every_step;
  return settings;
}

std::string stamp(const sun::Date& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

using Job = std::function<void()>;

// Files that have nothing to do with each other, by all threads. Of those that cannot be saved the
// first in order is told, whichever was tried first.
void save_side_by_side(const std::vector<Job>& jobs) {
  std::vector<std::exception_ptr> failed(jobs.size());
  tbb::parallel_for(
      tbb::blocked_range<std::size_t>(0, jobs.size(), 1),
      [&](const tbb::blocked_range<std::size_t>& some) {
        for (std::size_t k = some.begin(); k < some.end(); ++k) try {
            jobs[k]();
          } catch (...) {
            failed[k] = std::current_exception();
          }
      },
      tbb::simple_partitioner{});
  for (const std::exception_ptr& f : failed)
    if (f) std::rethrow_exception(f);
}

// Its raster and its picture.
void add_layer(std::vector<Job>& jobs, const fs::path& base, const Model& model,
               const geom::Raster& raster, const std::string& title, const std::string& unit) {
  jobs.emplace_back([=, &model, &raster] {
    maps::write_raster(base.string() + ".tif", model, {{title, &raster}}, unit);
  });
  jobs.emplace_back([=, &model, &raster] {
    const std::string name = base.filename().string();
    draw::save_png(base.string() + ".png", draw::layer_figure(model, raster, name, title, unit));
  });
}

void save_bands(const fs::path& path, const Model& model, const shade::Day& day) {
  if (!day.beams || day.times.empty()) return;
  maps::MadeBands bands{day.sun_hours.grid, {}, [&](std::size_t k) { return day.beams->band(k); }};
  for (const sun::Position& p : day.times)
    bands.descriptions.push_back(sun::clock(*model.site.place, p.when));
  maps::write_bands(path, model, bands, "share of the beam");
}

void save_day(const fs::path& folder, const Model& model, const shade::Day& day) {
  const std::string date = stamp(day.date);
  const auto file = [&](const std::string& name, const char* ending) {
    return folder / (name + "-" + date + ending);
  };
  std::vector<Job> jobs{
      [&] { save_bytes(file("shade", ".json"), json_text(shade::to_json(day, model))); },
      [&] { save_bytes(file("times", ".csv"), shade::times_csv(day, model)); },
      [&] { save_bytes(file("cells", ".csv"), shade::cells_csv(day, model)); },
      [&] { save_bytes(file("objects", ".csv"), shade::objects_csv(day, model)); },
      [&] { save_bands(file("beam", ".tif"), model, day); }};
  const auto layer = [&](const char* name, const geom::Raster& raster, const char* title,
                         const char* unit) {
    add_layer(jobs, file(name, ""), model, raster, std::string(title) + ", " + date, unit);
  };
  layer("sun-hours", day.sun_hours, "hours of direct sun", "h");
  layer("noon-shade", day.midday_shade_share, "share of 11–15 h in shade", "1");
  layer("longest-shade", day.longest_shade_h, "longest unbroken shade", "h");
  layer("irradiation", day.irradiation_kwh_m2, "clear-sky irradiation", "kWh/m²");
  save_side_by_side(jobs);
}

void print_day(const shade::Day& day) {
  fmt::print("{}: day length {:.2f} h; direct sun {:.1f} to {:.1f} h, mean {:.1f} h",
             stamp(day.date), day.sun.day_length_h, day.sun_hours_min, day.sun_hours_max,
             day.sun_hours_mean);
  if (!day.hottest_at.empty()) {
    fmt::print("; least shade in the hot hours {:.1f} m² for each animal at {}",
               day.hottest_shade_m2_per_animal, shade::hottest_in_words(day));
  }
  fmt::print("\n");
}

void save_year(const fs::path& folder, const Model& model, const shade::Year& year) {
  const std::string of = std::to_string(year.year);
  const std::string name = "year-" + of;
  static const char* const months[] = {"January",   "February", "March",    "April",
                                       "May",       "June",     "July",     "August",
                                       "September", "October",  "November", "December"};
  std::vector<maps::Band> bands;
  for (std::size_t k = 0; k < year.month_sun_hours.size(); ++k) {
    bands.push_back({std::string(months[k]) + ", hours of sun a day", &year.month_sun_hours[k]});
  }
  std::vector<Job> jobs{
      [&] { save_bytes(folder / (name + ".json"), json_text(shade::to_json(year, model))); },
      [&] { save_bytes(folder / (name + ".csv"), shade::year_csv(year, model)); },
      [&] { maps::write_raster(folder / (name + "-months.tif"), model, bands, "h"); }};
  add_layer(jobs, folder / (name + "-sun-hours"), model, year.sun_hours,
            "hours of direct sun in " + of, "h");
  save_side_by_side(jobs);
}

foresight::Asked asked_of(const ShadeFlags& flags) {
  using foresight::Work;
  foresight::Asked asked;
  asked.work = flags.year      ? Work::shade_year
               : flags.seasons ? Work::shade_seasons
                               : Work::shade_day;
  asked.shade_cell = flags.cell;
  asked.step_minutes = flags.step;
  return asked;
}

int write_shade(const ShadeFlags& flags) {
  if (flags.build.foresee) return tell_foreseen(flags.site, asked_of(flags));
  const TerminalProgress terminal;
  const Model model = load(flags.site, flags.build, asked_of(flags), terminal.progress());
  shade::Settings settings = settings_of(flags, model.site);
  if (flags.year) {
    const shade::Year year = shade::year(model, settings, terminal.progress());
    need_folder(flags.folder);
    save_year(flags.folder, model, year);
  } else {
    settings.keep_bands = !flags.seasons;
    std::vector<shade::Day> days;
    if (flags.seasons)
      days = shade::season_days(model, settings, terminal.progress());
    else
      days.push_back(shade::analyse(model, settings, terminal.progress()));
    need_folder(flags.folder);
    for (const shade::Day& day : days) {
      save_day(flags.folder, model, day);
      print_day(day);
    }
  }
  fmt::print("{}: written\n", flags.folder);
  return kAllMet;
}

}  // namespace

void add_shade(CommandLine& line) {
  auto flags = std::make_shared<ShadeFlags>();
  Command command = line.command("shade", "sun and shade of a day, the seasons or a year");
  command.required("SITE", flags->site, "NAME.site.toml");
  command.required("-o,--out", flags->folder, "folder");
  command.text("--date", flags->date, "YYYY-MM-DD; default midsummer");
  command.number("--step", flags->step, {0.5, 120.0}, "minutes between sun positions");
  command.number("--cell", flags->cell, {0.0, 50.0},
                 "metres between places asked; 0 = the ground's");
  command.flag("--seasons", flags->seasons, "the four season days");
  command.flag("--year", flags->year, "the whole year: hours of sun for each month");
  command.flag("--every-step", flags->every_step,
               "with --year: each step's own sun, none moved to a grid (about four times as slow)");
  command.flag("--sun-disc", flags->disc, "integrate the sun's disc (penumbra)");
  flags->build.add_to(command);
  command.runs([flags] { return write_shade(*flags); });
}

}  // namespace hummock::cli
