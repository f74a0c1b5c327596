#include "engine/report/setters/write_document.h"

#include <tbb/parallel_invoke.h>

#include "engine/base/atomic_file.h"
#include "engine/base/input_error.h"
#include "engine/report/setters/pdf_pages.h"
#include "engine/report/setters/tables_csv.h"

namespace hummock::report {
namespace {

namespace fs = std::filesystem;

void need_folder(const fs::path& folder) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) {
    throw InputError({folder.string(), 0, ""}, "a folder that cannot be made: " + failed.message(),
                     "a writable place");
  }
}

Drawings drawn_beside_sheets(const fs::path& pdf, const Document& document) {
  Drawings drawings;
  tbb::parallel_invoke(
      [&] {
        draw::save_pdf(pdf, pdf_pages(document), document.front.title + ": " + document.front.kind);
      },
      [&] { drawings = drawings_of(document); });
  return drawings;
}

}  // namespace

Written write_document(const fs::path& folder, const Document& document,
                       const std::optional<TurnData>& turn, const Progress& progress) {
  Written written;
  need_folder(folder / "figures");
  need_folder(folder / "tables");
  progress.step("report: figures", 0.65);
  const Drawings drawings = drawn_beside_sheets(folder / "report.pdf", document);
  progress.step("report: page", 0.85);
  save_bytes(folder / "report.html", html_page(document, drawings, turn));
  written.files = {"report.html", "report.pdf"};
  for (const draw::Figure* figure : figures_of(document)) {
    const fs::path name = fs::path("figures") / figure->name;
    save_bytes(folder / (name.string() + ".svg"), drawings.at(figure).svg);
    save_bytes(folder / (name.string() + ".png"), drawings.at(figure).png);
    written.files.emplace_back(name.string() + ".svg");
    written.files.emplace_back(name.string() + ".png");
  }
  progress.step("report: tables", 0.95);
  for (const Table* table : tables_of(document)) {
    const fs::path name = fs::path("tables") / (table->file + ".csv");
    save_bytes(folder / name, to_csv(*table));
    written.files.push_back(name);
  }
  return written;
}

bool is_report_file(const fs::path& name) {
  const std::string folder = name.parent_path().generic_string();
  const std::string ending = name.extension().string();
  if (folder == "figures") return ending == ".svg" || ending == ".png";
  if (folder == "tables") return ending == ".csv";
  return folder.empty() && (name == "report.html" || name == "report.pdf" || name == "model.glb" ||
                            name == "check.json");
}

}  // namespace hummock::report
