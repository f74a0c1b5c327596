// A document's files: page, sheets, figures, tables.
#pragma once

#include <filesystem>
#include <optional>

#include "engine/report/document.h"
#include "engine/report/report.h"
#include "engine/report/setters/html_page.h"

namespace hummock::report {

// report.html, report.pdf, figures/NAME.svg and .png, tables/NAME.csv into a folder that is there.
Written write_document(const std::filesystem::path& folder, const Document& document,
                       const std::optional<TurnData>& turn, const Progress& progress);

// Does a report or a comparison write a file of this name (relative to its folder)? Told by where
// it lies and its ending; used only for folders of before there was a manifest.
bool is_report_file(const std::filesystem::path& name);

}  // namespace hummock::report
