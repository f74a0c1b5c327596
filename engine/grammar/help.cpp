#include "engine/grammar/help.h"

#include <fmt/format.h>

#include "engine/grammar/tables.h"
#include "engine/grammar/walk.h"
#include "engine/grammar/write_table.h"

namespace hummock::grammar {
namespace {

std::string range_words(const Range& range) {
  if (range.hi >= kAnyFigure.hi) return "number";
  if (range.lo == range.hi) return plain_number(range.lo);
  if (range.above_lo) return plain_number(range.lo) + " < x ≤ " + plain_number(range.hi);
  return plain_number(range.lo) + " … " + plain_number(range.hi);
}

std::string listed(const Words& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

// The row that says what a figure's value is.
const Row& value_row(const Row& row) {
  return row.kind == Kind::figure ? row.table().rows.front() : row;
}

std::string default_value(const Row& row, const Table& table) {
  const Value value = value_of(row, table.make().get());
  if (const auto* v = std::get_if<double>(&value)) return plain_number(*v);
  if (const auto* v = std::get_if<std::string>(&value)) return *v;
  return given(value) ? spelled(row, value, {}) : "none";
}

// One key in two lines: what it is, and what it means.
std::string key_lines(const Row& row, const Table& table, std::size_t width) {
  std::string what = allowed_of(row);
  if (!unit_of(row).empty()) what += " " + unit_of(row);
  const std::string absent = default_of(row, table);
  what += absent == "needed" ? "; needed" : "; else " + absent;
  return fmt::format("  {:<{}}  {}\n  {:<{}}  {}\n", row.key, width, what, "", width,
                     meaning_of(row));
}

// A key may have a row for each kind of thing.
std::string rows_of_key(const Table& table, const std::string& key) {
  std::string out;
  for (const Row& row : table.rows) {
    if (row.key == key) out += key_lines(row, table, key.size());
  }
  return out;
}

std::string table_help(const Table& table, const std::string& heading) {
  std::size_t width = 0;
  for (const Row& row : table.rows) width = std::max(width, row.key.size());
  std::string out = heading + "\n";
  if (!table.note.empty()) out += table.note + "\n";
  out += "\n";
  for (const Row& row : table.rows) out += key_lines(row, table, width);
  return out;
}

}  // namespace

std::string unit_of(const Row& row) {
  const Row& value = value_row(row);
  switch (value.kind) {
    case Kind::point:
    case Kind::path:
    case Kind::outline:
      return "m";
    default:
      return value.range.unit;
  }
}

std::string allowed_of(const Row& row) {
  const Row& value = value_row(row);
  switch (value.kind) {
    case Kind::length:
    case Kind::angle:
    case Kind::share:
    case Kind::number:
      return range_words(value.range);
    case Kind::count:
      return value.example.empty() ? range_words(value.range) : value.example;
    case Kind::choice:
      return listed(value.words);
    case Kind::choices:
      return "list of " + listed(value.words);
    case Kind::flag:
      return "true, false";
    case Kind::text:
      return value.example.empty() ? "text" : value.example;
    case Kind::name:
      return "text";
    case Kind::texts:
      return "list of texts";
    case Kind::date:
      return "day, 2026-05-01";
    case Kind::file:
      return "path";
    case Kind::point:
      return "[x, y]";
    case Kind::path:
      return std::to_string(value.least) + " or more [x, y]";
    case Kind::outline:
      return "3 or more [x, y]";
    case Kind::size:
      return "three, " + range_words(value.range);
    case Kind::numbers:
      return "two, " + range_words(value.range);
    case Kind::season:
      return "[\"11-01\", \"04-01\"]";
    case Kind::edges:
      return "list of edge numbers";
    case Kind::pairs:
      return value.example;
    case Kind::table:
      return "table";
    case Kind::tables:
      return "list of tables";
    case Kind::figure:
      break;
  }
  return "";
}

std::string default_of(const Row& row, const Table& table) {
  if (row.needed) return "needed";
  if (!row.absent.empty()) return row.absent;
  return has_table(row) ? "none" : default_value(row, table);
}

std::string meaning_of(const Row& row) {
  return row.only.empty() ? row.meaning : row.meaning + " (" + row.only + ")";
}

std::string help(const Table& top, const std::string& file, const std::string& path) {
  if (path.empty()) return table_help(top, "The keys of a " + file + " file");
  const Named found = named(top, path);
  if (found.row != nullptr) return rows_of_key(*found.table, found.row->key);
  const std::string name = found.list ? "[[" + path + "]]" : path;
  return table_help(*found.table, name + ": " + found.table->title);
}

}  // namespace hummock::grammar
