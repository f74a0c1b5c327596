#include "engine/report/setters/tables_csv.h"

#include <fmt/format.h>

namespace hummock::report {
namespace {

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

// A spreadsheet takes a cell that begins so for a formula; a name from a site file is none.
std::string harmless(const std::string& text) {
  const bool formula = !text.empty() && std::string("=+-@\t\r").find(text[0]) != std::string::npos;
  return formula ? "'" + text : text;
}

std::string field(const Cell& cell) {
  if (cell.number) return fmt::format("{}", *cell.number);
  return cell.text == "–" ? "" : quoted(harmless(cell.text));
}

}  // namespace

std::string to_csv(const Table& table) {
  std::string out;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    out += (k == 0 ? "" : ",") + quoted(table.columns[k].title);
  }
  out += "\r\n";
  for (const auto& row : table.rows) {
    for (std::size_t k = 0; k < row.size(); ++k) out += (k == 0 ? "" : ",") + field(row[k]);
    out += "\r\n";
  }
  return out;
}

}  // namespace hummock::report
