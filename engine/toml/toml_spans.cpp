#include "engine/toml/toml_spans.h"

#include <map>

#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") at_ = 3;
  }

  TomlSpans scan() {
    while (at_ < text_.size()) line();
    return std::move(out_);
  }

 private:
  char here(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
  }
  bool starts(std::string_view part) const { return text_.substr(at_, part.size()) == part; }
  void skip_blanks() {
    while (here() == ' ' || here() == '\t') ++at_;
  }
  // To the end of the line and past its break.
  void skip_rest_of_line() {
    while (at_ < text_.size() && text_[at_] != '\n') ++at_;
    if (at_ < text_.size()) ++at_;
  }
  // Blanks, line breaks and comments between the items of a list.
  void skip_space() {
    while (at_ < text_.size()) {
      const char c = here();
      if (c == '#') {
        skip_rest_of_line();
      } else if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
        ++at_;
      } else {
        return;
      }
    }
  }

  void line() {
    const std::size_t begin = at_;
    skip_blanks();
    const char c = here();
    if (c == '#' || c == '\n' || c == '\r' || c == '\0') {
      skip_rest_of_line();
      return;
    }
    StatementSpan statement;
    statement.begin = begin;
    if (c == '[') {
      header();
      statement.header = true;
    } else {
      entry(table_, true);
    }
    statement.table = table_;
    skip_rest_of_line();
    statement.end = at_;
    out_.statements.push_back(statement);
  }

  // [a.b] or [[a.b]]; a list on the way means its last table.
  void header() {
    const bool list = starts("[[");
    at_ += list ? 2 : 1;
    const auto parts = key();
    std::string path;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      path = joined_path(path, parts[i]);
      const bool last = i + 1 == parts.size();
      if (last && list) ++counts_[path];
      const auto count = counts_.find(path);
      if (count != counts_.end()) path += "[" + std::to_string(count->second - 1) + "]";
    }
    table_ = path;
  }

  std::vector<std::string> key() {
    std::vector<std::string> parts;
    do {
      if (!parts.empty()) ++at_;  // the dot
      skip_blanks();
      const std::size_t begin = at_;
      if (here() == '"' || here() == '\'') {
        string();
        parts.emplace_back(text_.substr(begin + 1, at_ - begin - 2));
      } else {
        while (is_bare(here())) ++at_;
        parts.emplace_back(text_.substr(begin, at_ - begin));
      }
      skip_blanks();
    } while (here() == '.');
    return parts;
  }
  static bool is_bare(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  }

  // key = value
  void entry(const std::string& table, bool own_line) {
    const std::size_t begin = at_;
    std::string path = table;
    for (const std::string& part : key()) path = joined_path(path, part);
    ++at_;  // =
    skip_blanks();
    value(path, begin, own_line);
  }

  void value(const std::string& path, std::size_t entry_begin, bool own_line) {
    const std::size_t index = out_.values.size();
    ValueSpan span;
    span.path = path;
    span.begin = at_;
    span.entry_begin = entry_begin;
    span.on_own_line = own_line;
    out_.values.push_back(span);
    SpanKind kind = SpanKind::scalar;
    if (here() == '"' || here() == '\'') {
      string();
    } else if (here() == '[') {
      kind = SpanKind::list;
      list(path);
    } else if (here() == '{') {
      kind = SpanKind::table;
      inline_table(path);
    } else {
      bare_value();
    }
    out_.values[index].kind = kind;
    out_.values[index].end = at_;
  }

  void list(const std::string& path) {
    ++at_;
    std::size_t count = 0;
    for (skip_space(); at_ < text_.size() && here() != ']'; skip_space()) {
      value(path + "[" + std::to_string(count) + "]", at_, false);
      ++count;
      skip_space();
      if (here() == ',') ++at_;
    }
    ++at_;
  }

  void inline_table(const std::string& path) {
    ++at_;
    for (skip_space(); at_ < text_.size() && here() != '}'; skip_space()) {
      entry(path, false);
      skip_space();
      if (here() == ',') ++at_;
    }
    ++at_;
  }

  void string() {
    const char quote = here();
    const std::string three(3, quote);
    if (!starts(three)) {
      ++at_;
      while (at_ < text_.size() && here() != quote) at_ += here() == '\\' && quote == '"' ? 2 : 1;
      ++at_;
      return;
    }
    at_ += 3;
    while (at_ < text_.size() && !starts(three)) at_ += here() == '\\' && quote == '"' ? 2 : 1;
    at_ += 3;
    // Up to two quotes may stand just before the closing three.
    for (int extra = 0; extra < 2 && here() == quote; ++extra) ++at_;
  }

  void bare_value() {
    const std::size_t begin = at_;
    while (at_ < text_.size() &&
           std::string_view(",]}#\r\n").find(here()) == std::string_view::npos) {
      ++at_;
    }
    while (at_ > begin && (text_[at_ - 1] == ' ' || text_[at_ - 1] == '\t')) --at_;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::string table_;
  std::map<std::string, std::size_t> counts_;  // of [[tables]] so far
  TomlSpans out_;
};

}  // namespace

bool is_within(std::string_view inner, std::string_view outer) {
  if (inner.substr(0, outer.size()) != outer) return false;
  if (inner.size() == outer.size() || outer.empty()) return true;
  return inner[outer.size()] == '.' || inner[outer.size()] == '[';
}

const ValueSpan* TomlSpans::find(std::string_view path) const {
  for (const ValueSpan& value : values) {
    if (value.path == path) return &value;
  }
  return nullptr;
}

const StatementSpan* TomlSpans::header(std::string_view table) const {
  for (const StatementSpan& statement : statements) {
    if (statement.header && statement.table == table) return &statement;
  }
  return nullptr;
}

std::size_t TomlSpans::count(const std::string& path) const {
  std::size_t n = 0;
  while (header(path + "[" + std::to_string(n) + "]") != nullptr ||
         find(path + "[" + std::to_string(n) + "]") != nullptr) {
    ++n;
  }
  return n;
}

TomlSpans scan_toml(std::string_view text) {
  return Scanner(text).scan();
}

}  // namespace hummock
