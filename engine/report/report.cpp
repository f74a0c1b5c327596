#include "engine/report/report.h"

#include <fmt/format.h>
#include <tbb/parallel_for_each.h>
#include <tbb/parallel_invoke.h>

#include <algorithm>
#include <cmath>

#include "engine/base/atomic_file.h"
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
                   const Settings& settings, const Progress& progress) {
  Progress quiet;
  quiet.cancel = progress.cancel;
  Sources sources{model, results, options, {}, season_settings(model, results), quiet};
  if (settings.season_days && results.shade) {
    sources.seasons = shade::season_days(model, sources.season_settings, quiet, results.shade->sky);
  }
  return sources;
}

// Side by side: each reads the model and the results, and nothing of another.
std::vector<Chapter> group_chapters(const Sources& sources) {
  std::vector<Chapter> chapters;
  for (const Group& group : groups())
    chapters.push_back({group.id, group.title, group.question, {}});
  tbb::parallel_for_each(chapters, [&](Chapter& chapter) { add_parts(chapter, sources); });
  return chapters;
}

Document document_of(const Sources& sources) {
  Document document;
  const auto scene = still_scene(sources);
  document.front = front_page(sources, *scene);
  document.foot = fmt::format("{} · hummock {} · a calculation aid, no warranty",
                              draw::isolated(sources.model.site.name), version());
  document.chapters = {findings_chapter(sources), brief_chapter(sources.results.brief),
                       site_chapter(sources, *scene)};
  for (Chapter& chapter : group_chapters(sources)) document.chapters.push_back(std::move(chapter));
  document.chapters.push_back(schedule_chapter(sources));
  document.chapters.push_back(record_chapter(sources));
  return document;
}

}  // namespace

namespace {

std::vector<fs::path> fill(const fs::path& folder, const Sources& sources,
                           const Progress& progress) {
  const Model& model = sources.model;
  progress.step("report: chapters", 0.2);
  Progress quiet;
  quiet.cancel = progress.cancel;
  Document document;
  std::optional<TurnData> turn;
  tbb::parallel_invoke([&] { document = document_of(sources); },
                       [&] { mesh_export::write(folder / "model.glb", model, {}, quiet); },
                       [&] { turn = turn_data(model, sources.results.shade, folder, quiet); });
  Written written = write_document(folder, document, turn, progress);
  save_bytes(folder / "check.json",
             to_json(sources.results, model)
                     .dump(2, ' ', false, nlohmann::json::error_handler_t::replace) +
                 "\n");
  written.files.emplace_back("model.glb");
  written.files.emplace_back("check.json");
  return std::move(written.files);
}

}  // namespace

Written write(const fs::path& folder, const Model& model, const CheckResults& results,
              const CheckOptions& options, const Settings& settings, const Progress& progress) {
  refuse_no_folder(folder);
  progress.step("report: season days", 0.0);
  const Sources sources = sources_of(model, results, options, settings, progress);
  Written written;
  written.files = replace_folder(
      folder, is_report_file, [&](const fs::path& part) { return fill(part, sources, progress); });
  progress.step("report: done", 1.0);
  return written;
}

}  // namespace hummock::report
