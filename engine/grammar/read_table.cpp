#include "engine/grammar/read_table.h"

#include <algorithm>

namespace hummock::grammar {
namespace {

namespace fs = std::filesystem;

std::string read_name(TableCursor& cursor, const Row& row, const Source& source) {
  const char* key = row.key.c_str();
  const std::string numbered =
      row.example.empty() ? row.absent : row.example + " " + std::to_string(source.number);
  std::string name = row.needed ? cursor.text(key) : cursor.text(key, numbered);
  for (const char c : name) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
      cursor.refuse(key, in_quotes(name), "a name on one line");
    }
  }
  if (name.size() > 200) cursor.refuse(key, in_quotes(name), "a name of at most 200 bytes");
  return name;
}

// A path, taken from the file's folder: of a file that is there and not empty.
std::string read_file(TableCursor& cursor, const Row& row, const Source& source) {
  const char* key = row.key.c_str();
  const std::string given = cursor.text(key);
  const fs::path path = source.folder / given;
  std::error_code ignored;
  if (given.find('\0') != std::string::npos || !fs::exists(path, ignored)) {
    cursor.refuse(key, in_quotes(given) + ", which is not there",
                  row.example + " (path from the site file)");
  }
  if (!fs::is_regular_file(path, ignored)) {
    cursor.refuse(key, in_quotes(given) + ", which is not a file", row.example);
  }
  if (fs::file_size(path, ignored) == 0) {
    cursor.refuse(key, in_quotes(given) + ", which is empty", row.example);
  }
  return path.string();
}

bool is_month_day(const std::string& text) {
  if (text.size() != 5 || text[2] != '-') return false;
  for (const std::size_t i : {0U, 1U, 3U, 4U}) {
    if (text[i] < '0' || text[i] > '9') return false;
  }
  const auto [month, day] = month_day(text);
  constexpr int kDays[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month >= 1 && month <= 12 && day >= 1 && day <= kDays[month - 1];
}

Words read_season(TableCursor& cursor, const char* key) {
  const std::string words = "[\"month-day\", \"month-day\"], as [\"11-01\", \"04-01\"]";
  const TomlNode& node = *cursor.raw(key);
  if (node.kind != TomlNode::Kind::list || node.items.size() != 2) {
    cursor.refuse(key, describe(node), words);
  }
  Words days;
  for (const TomlNode& item : node.items) {
    if (item.kind != TomlNode::Kind::text || !is_month_day(item.text)) {
      cursor.refuse(key, describe(item), words);
    }
    days.push_back(item.text);
  }
  return days;
}

Words read_texts(TableCursor& cursor, const char* key) {
  const TomlNode& node = *cursor.raw(key);
  const std::string allowed = "a list of texts in quotes";
  if (node.kind != TomlNode::Kind::list) cursor.refuse(key, describe(node), allowed);
  Words out;
  for (const TomlNode& one : node.items) {
    if (one.kind != TomlNode::Kind::text || one.text.empty()) {
      cursor.refuse(key, describe(one), allowed);
    }
    out.push_back(one.text);
  }
  return out;
}

std::string read_date(TableCursor& cursor, const char* key) {
  const std::string allowed = "a date such as 2026-05-01, without quotes";
  const TomlNode* node = cursor.raw(key);
  if (node == nullptr) cursor.refuse(key, "nothing", allowed);
  if (node->kind != TomlNode::Kind::date || node->text.empty()) {
    cursor.refuse(key, describe(*node), allowed);
  }
  return node->text;
}

// Of a key that is given, or needed.
Value read_kind(TableCursor& cursor, const Row& row, const Source& source) {
  const char* key = row.key.c_str();
  const auto whole = [](double bound) { return static_cast<int>(bound); };
  switch (row.kind) {
    case Kind::length:
    case Kind::angle:
    case Kind::share:
    case Kind::number:
      return cursor.number(key, row.range);
    case Kind::count:
      return cursor.integer(key, whole(row.range.lo), whole(row.range.hi));
    case Kind::choice:
      return cursor.choice(key, row.words);
    case Kind::flag:
      if (!cursor.has(key)) cursor.refuse(key, "nothing", "true or false");
      return cursor.flag(key, false);
    case Kind::text:
      return cursor.text(key);
    case Kind::name:
      return read_name(cursor, row, source);
    case Kind::texts:
      return read_texts(cursor, key);
    case Kind::date:
      return read_date(cursor, key);
    case Kind::file:
      return read_file(cursor, row, source);
    case Kind::point:
      return cursor.point(key);
    case Kind::path:
      return cursor.path(key, static_cast<int>(row.least));
    case Kind::outline:
      return cursor.polygon(key);
    case Kind::size:
      return cursor.numbers(key, 3, row.range);
    case Kind::numbers:
      return cursor.numbers(key, row.least, row.range);
    case Kind::season:
      return read_season(cursor, key);
    case Kind::edges:
      return cursor.integers(key, whole(row.range.lo), whole(row.range.hi));
    case Kind::choices:
      return cursor.choices(key, row.words);
    case Kind::pairs:
    case Kind::table:
    case Kind::tables:
    case Kind::figure:
      break;
  }
  return {};
}

void read_one_table(TableCursor& cursor, const Row& row, void* thing, const Source& source) {
  const auto inner = cursor.table(row.key.c_str());
  if (!inner && row.needed) {
    cursor.refuse(row.key.c_str(), "nothing", "a table [" + row.key + "]");
  }
  if (inner) read_table(*inner, row.table(), row.children.add(thing), {source.folder, 1});
}

void read_tables(TableCursor& cursor, const Row& row, void* thing, const Source& source) {
  int number = 0;
  for (const TableCursor& one : cursor.tables(row.key.c_str())) {
    read_table(one, row.table(), row.children.add(thing), {source.folder, ++number});
  }
}

// { value = …, source = "…" }; or a list of such records, of which exactly one is marked as used.
void read_figure(TableCursor& cursor, const Row& row, void* thing, const Source& source) {
  const char* key = row.key.c_str();
  const std::string allowed = row.key + " = { value = …, source = \"…\" }";
  const TomlNode* node = cursor.raw(key);
  if (node == nullptr && !row.needed) return;
  if (node == nullptr) cursor.refuse(key, "nothing", allowed);
  const Table& table = row.table();
  void* figure = row.children.add(thing);
  if (node->kind == TomlNode::Kind::table) {
    read_table(*cursor.table(key), table, figure, source);
    return;
  }
  if (node->kind != TomlNode::Kind::list || !table.records) {
    cursor.refuse(key, describe(*node) + " alone", allowed);
  }
  for (const TableCursor& one : cursor.tables(key)) {
    read_table(one, table, table.records.add(figure), source);
  }
  const std::size_t marked = table.records.use(figure);
  if (marked != 1) {
    cursor.refuse(key,
                  describe(*node) + " records, " + (marked == 0 ? "none" : std::to_string(marked)) +
                      " marked used = true",
                  "exactly one record marked used = true");
  }
}

void read_row(TableCursor& cursor, const Row& row, void* thing, const Source& source) {
  if (row.kind == Kind::table) {
    read_one_table(cursor, row, thing, source);
  } else if (row.kind == Kind::tables) {
    read_tables(cursor, row, thing, source);
  } else if (row.kind == Kind::figure) {
    read_figure(cursor, row, thing, source);
  } else {
    set_value(row, thing, read_value(cursor, row, source));
  }
}

void add_keys(const Table& table, const std::string& path, TableKeys& keys) {
  std::vector<std::string>& here = keys[path];  // stays where it is: a map
  for (const Row& row : table.rows) {
    const bool twice = std::find(here.begin(), here.end(), row.key) != here.end();
    if (!twice) here.push_back(row.key);
    if (has_table(row)) add_keys(row.table(), path.empty() ? row.key : path + "." + row.key, keys);
  }
}

}  // namespace

Value read_value(TableCursor& cursor, const Row& row, const Source& source) {
  const bool absent = !cursor.has(row.key.c_str());
  if (absent && !row.needed && row.kind != Kind::name) {
    cursor.raw(row.key.c_str());
    return {};
  }
  return row.read ? row.read(cursor, row, source) : read_kind(cursor, row, source);
}

void read_table(TableCursor cursor, const Table& table, void* thing, const Source& source) {
  if (table.put_where) table.put_where(thing, cursor.where());
  for (const Row& row : table.rows) {
    if (!means_something(row, thing)) continue;
    if (row.before) row.before(cursor, thing);
    read_row(cursor, row, thing, source);
    if (row.check) row.check(cursor, thing);
  }
  if (table.check) table.check(cursor, thing);
  cursor.done(table.a(thing));
}

Value value_from(const Row& row, const std::string& text, const Source& source) {
  const TomlNode tree = parse_toml(row.key + " = " + text + "\n", "");
  const TableKeys only{{"", {row.key}}};
  TableCursor cursor(tree, "", "", only);
  return read_value(cursor, row, source);
}

TableKeys keys_of(const Table& top) {
  TableKeys keys;
  add_keys(top, "", keys);
  return keys;
}

}  // namespace hummock::grammar
