// Pieces that several tables of a site or species file share.
#include <cstdlib>
#include <string>

#include "engine/site/site_keys.h"
#include "engine/site/site_tables.h"

namespace hummock {
namespace {

namespace fs = std::filesystem;

std::optional<MonthDay> parse_month_day(const std::string& text) {
  if (text.size() != 5 || text[2] != '-') return std::nullopt;
  for (const std::size_t i : {0U, 1U, 3U, 4U}) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
  }
  const int month = (text[0] - '0') * 10 + (text[1] - '0');
  const int day = (text[3] - '0') * 10 + (text[4] - '0');
  constexpr int kDays[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12 || day < 1 || day > kDays[month - 1]) return std::nullopt;
  return MonthDay{month, day};
}

// "space.plan_area_m2": two or more parts of a-z, 0-9 and _, the first a group of figures.
std::string read_what(TableCursor& table) {
  std::string what = table.text("what");
  const std::string allowed =
      "a key of the results such as \"space.plan_area_m2\" or \"leap.margin\"";
  bool sound = what.find('.') != std::string::npos && what.size() <= 100;
  char before = '.';
  for (const char c : what) {
    const bool word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    if (!word && (c != '.' || before == '.')) sound = false;
    before = c;
  }
  if (!sound || before == '.') table.refuse("what", in_quotes(what), allowed);
  const std::string group = what.substr(0, what.find('.'));
  for (const std::string& known : figure_groups()) {
    if (known == group) return what;
  }
  const auto near = nearest_word(group, figure_groups());
  table.refuse(
      "what", in_quotes(what),
      near ? "\"" + *near + what.substr(group.size()) + "\" (did you mean that?)" : allowed);
}

void read_limits(TableCursor& table, Requirement& out) {
  int forms = 0;
  for (const char* key : {"at_least", "at_most", "between"}) forms += table.has(key) ? 1 : 0;
  if (forms != 1) {
    table.refuse("what", forms == 0 ? "no limit for it" : "more than one limit for it",
                 "one of at_least, at_most and between");
  }
  out.at_least = table.maybe_number("at_least", kAnyFigure);
  out.at_most = table.maybe_number("at_most", kAnyFigure);
  if (!table.has("between")) return;
  const auto limits = table.numbers("between", 2, kAnyFigure);
  if (limits[0] > limits[1]) {
    table.refuse("between", "[" + plain_number(limits[0]) + ", " + plain_number(limits[1]) + "]",
                 "[low, high] with low <= high");
  }
  out.at_least = limits[0];
  out.at_most = limits[1];
}

}  // namespace

Requirement read_requirement(TableCursor table) {
  Requirement out;
  out.where = table.where();
  out.what = read_what(table);
  read_limits(table, out);
  const std::string per = table.choice("per", {"group", "animal", "extra animal"}, "group");
  if (per == "animal") out.per = Per::animal;
  if (per == "extra animal") {
    out.per = Per::extra_animal;
    out.up_to = table.integer("up_to", 1, 100000);
    out.extra = table.number("extra", kAnyFigure);
  }
  out.source = table.text("source");
  out.note = table.text("note", out.note);
  table.done("a requirement per " + per);
  return out;
}

fs::path read_file_key(TableCursor& table, const char* key, const fs::path& folder,
                       const std::string& what) {
  const std::string given = table.text(key);
  fs::path path = folder / given;
  std::error_code ignored;
  if (given.find('\0') != std::string::npos || !fs::exists(path, ignored)) {
    table.refuse(key, in_quotes(given) + ", which is not there",
                 what + " (path from the site file)");
  }
  if (!fs::is_regular_file(path, ignored)) {
    table.refuse(key, in_quotes(given) + ", which is not a file", what);
  }
  if (fs::file_size(path, ignored) == 0) {
    table.refuse(key, in_quotes(given) + ", which is empty", what);
  }
  return path;
}

std::optional<Season> read_season(TableCursor& table, const char* key) {
  const std::string words = "[\"month-day\", \"month-day\"], as [\"11-01\", \"04-01\"]";
  const TomlNode* node = table.raw(key);
  if (node == nullptr) return std::nullopt;
  if (node->kind != TomlNode::Kind::list || node->items.size() != 2) {
    table.refuse(key, describe(*node), words);
  }
  std::vector<MonthDay> days;
  for (const TomlNode& item : node->items) {
    const auto day = item.kind == TomlNode::Kind::text ? parse_month_day(item.text) : std::nullopt;
    if (!day) table.refuse(key, describe(item), words);
    days.push_back(*day);
  }
  return Season{days[0], days[1]};
}

std::string read_name(TableCursor& table, const char* kind, int number) {
  std::string name = table.text("name", std::string(kind) + " " + std::to_string(number));
  for (const char c : name) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
      table.refuse("name", in_quotes(name), "a name on one line");
    }
  }
  if (name.size() > 200) table.refuse("name", in_quotes(name), "a name of at most 200 bytes");
  return name;
}

}  // namespace hummock
