#include "engine/report/setters/tables_csv.h"

#include <fmt/format.h>

#include "engine/base/csv_field.h"

namespace hummock::report {
namespace {

std::string field(const Cell& cell) {
  if (cell.number) return fmt::format("{}", *cell.number);
  return cell.text == "–" ? "" : csv_field(cell.text);
}

}  // namespace

std::string to_csv(const Table& table) {
  std::string out;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    out += (k == 0 ? "" : ",") + csv_field(table.columns[k].title);
  }
  out += "\r\n";
  for (const auto& row : table.rows) {
    for (std::size_t k = 0; k < row.size(); ++k) out += (k == 0 ? "" : ",") + field(row[k]);
    out += "\r\n";
  }
  return out;
}

}  // namespace hummock::report
