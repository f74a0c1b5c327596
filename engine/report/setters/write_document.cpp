#include "engine/report/setters/write_document.h"

#include <tbb/parallel_invoke.h>

#include "engine/base/input_error.h"
#include "engine/report/setters/pdf_pages.h"
#include "engine/report/setters/save_aside.h"
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

fs::path figure_file(const draw::Figure& figure, const char* ending) {
  return fs::path("figures") / (figure.name + ending);
}

fs::path table_file(const Table& table) {
  return fs::path("tables") / (table.file + ".csv");
}

std::vector<fs::path> files_of(const Document& document) {
  std::vector<fs::path> files{"report.html", "report.pdf"};
  for (const draw::Figure* figure : figures_of(document)) {
    files.push_back(figure_file(*figure, ".svg"));
    files.push_back(figure_file(*figure, ".png"));
  }
  for (const Table* table : tables_of(document)) files.push_back(table_file(*table));
  return files;
}

std::vector<std::string> as_csv(const std::vector<const Table*>& tables) {
  std::vector<std::string> all;
  all.reserve(tables.size());
  for (const Table* table : tables) all.push_back(to_csv(*table));
  return all;
}

}  // namespace

Written write_document(const fs::path& folder, const Document& document,
                       const std::optional<TurnData>& turn, const Progress& progress) {
  need_folder(folder / "figures");
  need_folder(folder / "tables");
  progress.step("report: figures", 0.65);
  const std::vector<const Table*> tables = tables_of(document);
  const std::vector<std::string> csv = as_csv(tables);
  Drawings drawings;
  std::string page;
  SaveAside save;  // after what it saves
  for (std::size_t k = 0; k < tables.size(); ++k) save.add(folder / table_file(*tables[k]), csv[k]);
  const auto save_drawn = [&](const draw::Figure& figure, const Drawn& drawn) {
    save.add(folder / figure_file(figure, ".svg"), drawn.svg);
    save.add(folder / figure_file(figure, ".png"), drawn.png);
  };
  tbb::parallel_invoke(
      [&] {
        draw::save_pdf(folder / "report.pdf", pdf_pages(document),
                       document.front.title + ": " + document.front.kind);
      },
      [&] {
        drawings = drawings_of(document, save_drawn);
        progress.step("report: page", 0.85);
        page = html_page(document, drawings, turn);
        save.add(folder / "report.html", page);
      });
  progress.step("report: files", 0.95);
  save.finish();
  return {files_of(document)};
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
