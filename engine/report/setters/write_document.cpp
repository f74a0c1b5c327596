#include "engine/report/setters/write_document.h"

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

}  // namespace

Written write_document(const fs::path& folder, const Document& document,
                       const std::optional<TurnData>& turn, const Progress& progress) {
  Written written;
  need_folder(folder / "figures");
  need_folder(folder / "tables");
  progress.step("report: page", 0.65);
  save_bytes(folder / "report.html", html_page(document, turn));
  written.files.emplace_back("report.html");
  progress.step("report: sheets", 0.75);
  draw::save_pdf(folder / "report.pdf", pdf_pages(document),
                 document.front.title + ": " + document.front.kind);
  written.files.emplace_back("report.pdf");
  progress.step("report: figures", 0.85);
  for (const draw::Figure* figure : figures_of(document)) {
    const fs::path name = fs::path("figures") / figure->name;
    draw::save_svg(folder / (name.string() + ".svg"), *figure);
    draw::save_png(folder / (name.string() + ".png"), *figure);
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
