// The chapters of the report: what is asked first, one for each of a reviewer's questions
// (parts.h), and the record at the end.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/check/check.h"
#include "engine/model/model.h"
#include "engine/report/document.h"
#include "engine/report/figures/model_picture.h"
#include "engine/report/report.h"

namespace hummock::report {

// What the chapters are written from. `seasons` is empty when not asked for or not possible.
struct Sources {
  const Model& model;
  const CheckResults& results;
  const CheckOptions& options;
  std::vector<shade::Day> seasons;
  shade::Settings season_settings;
  Progress progress;
};

// The model in the afternoon light of the design day, for its pictures.
std::shared_ptr<const PictureScene> still_scene(const Sources& sources);
// The picture from one side (rad clockwise from +y).
draw::Figure still_picture(const PictureScene& scene, double from, const std::string& name);

Front front_page(const Sources& sources, const PictureScene& scene);
Chapter site_chapter(const Sources& sources, const PictureScene& scene);
// The findings in the report's words, the worst first.
std::vector<Card> finding_cards(const Sources& sources);
// Every finding, when page one could not hold them all.
Chapter findings_chapter(const Sources& sources);
// Quantities and where every thing stands.
Chapter schedule_chapter(const Sources& sources);
// Species figures with their sources, settings, inputs with checksums, program, models and limits.
Chapter record_chapter(const Sources& sources);

}  // namespace hummock::report
