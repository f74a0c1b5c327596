#include "engine/report/report.h"

#include <fmt/format.h>
#include <tbb/parallel_for_each.h>
#include <tbb/parallel_invoke.h>

#include <algorithm>
#include <cmath>

#include "engine/base/atomic_file.h"
#include "engine/base/json_text.h"
#include "engine/base/replace_folder.h"
#include "engine/base/version.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/mesh_export/mesh_export.h"
#include "engine/report/chapters/brief_groups.h"
#include "engine/report/chapters/chapters.h"
#include "engine/report/chapters/parts.h"
#include "engine/report/setters/write_document.h"

namespace hummock::report {
namespace {

namespace fs = std::filesystem;

// The season days on cells no smaller than this many nodes ask for, and at most hourly thirds.
constexpr double kSeasonNodes = 12'000.0;
constexpr double kSeasonStep = 20.0;  // minutes

shade::Settings season_settings(const Model& model, const CheckResults& results) {
  shade::Settings settings = results.settings.shade;
  settings.step_minutes = std::max(kSeasonStep, settings.step_minutes);
  settings.sky_light = false;  // hours and shade are shown
  const double area = std::abs(geom::signed_area(model.outline));
  const double cell = model.ground.grid.cell;
  settings.cell = cell * std::max(1.0, std::ceil(std::sqrt(area / kSeasonNodes) / cell));
  return settings;
}

Sources sources_of(const Model& model, const CheckResults& results, const CheckOptions& options,
                   const Progress& progress) {
  Progress quiet;
  quiet.cancel = progress.cancel;
  return {model, results, options, {}, season_settings(model, results), quiet};
}

void add_seasons(Sources& s) {
  const auto& day = s.results.shade;
  if (day) s.seasons = shade::season_days(s.model, s.season_settings, s.progress, day->sky);
}

// Side by side: each reads the model and the results, and nothing of another.
std::vector<Chapter> group_chapters(const Sources& sources) {
  std::vector<Chapter> chapters;
  for (const Group& group : groups())
    chapters.push_back({group.id, group.title, group.question, {}});
  tbb::parallel_for_each(chapters, [&](Chapter& chapter) { add_parts(chapter, sources); });
  return chapters;
}

// Those that read nothing of the seasons.
Document first_chapters(const Sources& sources) {
  Document document;
  const auto scene = still_scene(sources);
  document.front = front_page(sources, *scene);
  document.foot = fmt::format("{} · hummock {} · a calculation aid, no warranty",
                              draw::isolated(sources.model.site.name), version());
  document.chapters = {findings_chapter(sources), brief_chapter(sources.results.brief),
                       site_chapter(sources, *scene)};
  return document;
}

Document document_of(Sources& sources, bool season_days) {
  Document document;
  tbb::parallel_invoke([&] { document = first_chapters(sources); },
                       [&] {
                         if (season_days) add_seasons(sources);
                       });
  for (Chapter& chapter : group_chapters(sources)) document.chapters.push_back(std::move(chapter));
  document.chapters.push_back(schedule_chapter(sources));
  document.chapters.push_back(record_chapter(sources));
  return document;
}

std::vector<fs::path> fill(const fs::path& folder, Sources& sources, bool season_days,
                           const Progress& progress) {
  const Model& model = sources.model;
  progress.step("report: chapters", 0.2);
  Document document;
  std::optional<TurnData> turn;
  tbb::parallel_invoke(
      [&] { document = document_of(sources, season_days); },
      [&] { mesh_export::write(folder / "model.glb", model, {}, sources.progress); },
      [&] { turn = turn_data(model, sources.results.shade, folder, sources.progress); },
      [&] { save_bytes(folder / "check.json", json_text(to_json(sources.results, model))); });
  Written written = write_document(folder, document, turn, progress);
  written.files.emplace_back("model.glb");
  written.files.emplace_back("check.json");
  return std::move(written.files);
}

}  // namespace

Written write(const fs::path& folder, const Model& model, const CheckResults& results,
              const CheckOptions& options, const Settings& settings, const Progress& progress) {
  refuse_no_folder(folder);
  Sources sources = sources_of(model, results, options, progress);
  Written written;
  written.files = replace_folder(folder, is_report_file, [&](const fs::path& part) {
    return fill(part, sources, settings.season_days, progress);
  });
  progress.step("report: done", 1.0);
  return written;
}

}  // namespace hummock::report
