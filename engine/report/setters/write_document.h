// A document's files: page, sheets, figures, tables.
#pragma once

#include <filesystem>
#include <optional>

#include "engine/report/document.h"
#include "engine/report/report.h"
#include "engine/report/setters/html_page.h"

namespace hummock::report {

// report.html, report.pdf, figures/NAME.svg and .png, tables/NAME.csv.
Written write_document(const std::filesystem::path& folder, const Document& document,
                       const std::optional<TurnData>& turn, const Progress& progress);

}  // namespace hummock::report
