// The report: what the reviewer reads, prints and turns round.
//
// Writes into one folder: report.html (self-contained, opens from disk, no network), report.pdf
// (A4), figures as SVG and PNG, tables as CSV, the model as GLB. The same input gives the same
// bytes. The folder is replaced as one thing, with a manifest (base/replace_folder.h): stopped half
// way it is as it was.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/check/check.h"
#include "engine/model/model.h"

namespace hummock::report {

struct Settings {
  bool season_days = true;  // also the four season days of sun (slow on large grounds)
};
struct Written {
  std::vector<std::filesystem::path> files;  // relative to the folder
};
Written write(const std::filesystem::path& folder, const Model& model, const CheckResults& results,
              const CheckOptions& options, const Settings& settings = {},
              const Progress& progress = {});

// What changed between two designs, in the site files and in every result, in the same form.
Written write_comparison(const std::filesystem::path& folder, const Model& a,
                         const CheckResults& results_a, const Model& b,
                         const CheckResults& results_b, const Progress& progress = {});
// The same as plain text for the terminal.
std::string comparison_text(const Model& a, const CheckResults& results_a, const Model& b,
                            const CheckResults& results_b);

}  // namespace hummock::report
