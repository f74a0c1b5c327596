#include "engine/toml/edit_text.h"

#include <algorithm>
#include <cmath>

#include "engine/base/input_error.h"
#include "engine/toml/toml_spans.h"
#include "engine/toml/toml_tree.h"

namespace hummock {
namespace {

[[noreturn]] void refuse(const std::string& path, const std::string& found,
                         const std::string& allowed) {
  throw InputError({"", 0, path}, found, allowed);
}

bool same_number(double a, double b) {
  return a == b || (std::isnan(a) && std::isnan(b));
}

// Equal but for lines and the order of keys.
bool same(const TomlNode& a, const TomlNode& b) {
  if (a.kind != b.kind || a.items.size() != b.items.size()) return false;
  if (a.text != b.text || a.integer != b.integer || a.flag != b.flag) return false;
  if (!same_number(a.number, b.number)) return false;
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    const TomlNode* other = a.kind == TomlNode::Kind::table ? b.find(a.keys[i]) : &b.items[i];
    if (other == nullptr || !same(a.items[i], *other)) return false;
  }
  return true;
}

// One step of a path: a key, or an index into a list.
struct Step {
  std::string key;
  std::size_t index = 0;
  bool is_index = false;
};

std::vector<Step> steps_of(const std::string& path) {
  std::vector<Step> steps;
  std::string key;
  const auto end_key = [&] {
    if (!key.empty()) steps.push_back({key, 0, false});
    key.clear();
  };
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (path[i] == '.') {
      end_key();
    } else if (path[i] == '[') {
      end_key();
      std::size_t index = 0;
      for (++i; i < path.size() && path[i] != ']'; ++i) {
        if (path[i] < '0' || path[i] > '9' || index > 1000000)
          refuse(path, "a bad index", "a number");
        index = index * 10 + static_cast<std::size_t>(path[i] - '0');
      }
      steps.push_back({"", index, true});
    } else {
      key += path[i];
    }
  }
  end_key();
  return steps;
}

// The node at a path; tables and, if `make`, lists on the way are made when absent.
TomlNode* node_at(TomlNode& top, const std::string& path, bool make) {
  TomlNode* node = &top;
  for (const Step& step : steps_of(path)) {
    if (step.is_index) {
      if (node->kind != TomlNode::Kind::list || step.index >= node->items.size()) return nullptr;
      node = &node->items[step.index];
      continue;
    }
    if (node->kind != TomlNode::Kind::table) return nullptr;
    const auto at = std::find(node->keys.begin(), node->keys.end(), step.key);
    if (at == node->keys.end()) {
      if (!make) return nullptr;
      node->keys.push_back(step.key);
      node->key_lines.push_back(0);
      node->items.emplace_back();
      node = &node->items.back();
    } else {
      node = &node->items[static_cast<std::size_t>(at - node->keys.begin())];
    }
  }
  return node;
}

void erase_item(TomlNode& node, std::size_t i) {
  const auto at = static_cast<std::ptrdiff_t>(i);
  node.items.erase(node.items.begin() + at);
  if (node.kind != TomlNode::Kind::table) return;
  node.keys.erase(node.keys.begin() + at);
  node.key_lines.erase(node.key_lines.begin() + at);
}

TomlNode parse_value(const std::string& path, const std::string& value) {
  const TomlNode tree = parse_toml("value = " + value + "\n", "");
  if (tree.items.size() != 1 || tree.keys[0] != "value") {
    refuse(path, in_quotes(value), "one value");
  }
  return tree.items[0];
}

bool means(const std::string& text, const TomlNode& wanted) {
  try {
    return same(parse_toml(text, ""), wanted);
  } catch (const InputError&) {
    return false;
  }
}

// The postcondition of every edit: the new text means what was asked for and nothing else.
std::string checked(std::string edited, const TomlNode& wanted, const std::string& path) {
  if (!means(edited, wanted)) {
    refuse(path, "a place that cannot be edited without changing others", "an edit by hand");
  }
  return edited;
}

// Where a path ends in an index: the list and the index.
std::pair<std::string, std::size_t> list_and_index(const std::string& table) {
  const std::size_t open = table.rfind('[');
  if (open == std::string::npos || table.empty() || table.back() != ']') {
    refuse(table, "no table of a list", "a path such as object[3]");
  }
  return {table.substr(0, open), steps_of(table).back().index};
}

const char* line_break(std::string_view text) {
  const std::size_t at = text.find('\n');
  return at != std::string_view::npos && at > 0 && text[at - 1] == '\r' ? "\r\n" : "\n";
}

// Inserts whole lines at `at`, which is the start of a line or the end of the text.
std::string with_lines(std::string_view text, std::size_t at, const std::string& lines) {
  std::string out(text.substr(0, at));
  if (!out.empty() && out.back() != '\n') out += line_break(text);
  out += lines;
  out += text.substr(at);
  return out;
}

std::string replaced(std::string_view text, std::size_t begin, std::size_t end,
                     const std::string& by) {
  std::string out(text.substr(0, begin));
  out += by;
  out += text.substr(end);
  return out;
}

// After the last line that the table itself (not a sub-table) has, or its header.
std::size_t end_of_own_lines(const TomlSpans& spans, const std::string& table) {
  std::size_t end = 0;
  for (const StatementSpan& statement : spans.statements) {
    if (statement.table == table) end = statement.end;
  }
  return end;
}

// After the last line of the table and all in it.
std::size_t end_of_block(const TomlSpans& spans, const std::string& table) {
  std::size_t end = 0;
  for (const StatementSpan& statement : spans.statements) {
    if (is_within(statement.table, table)) end = std::max(end, statement.end);
  }
  return end;
}

std::string with_entry(std::string_view text, const ValueSpan& table, const std::string& entry) {
  std::size_t at = table.end - 1;  // the brace
  while (at > table.begin + 1 && (text[at - 1] == ' ' || text[at - 1] == '\t')) --at;
  const bool empty = at == table.begin + 1;
  return replaced(text, at, table.end - 1, (empty ? " " : ", ") + entry + " ");
}

std::string with_new_key(std::string_view text, const TomlSpans& spans, const std::string& table,
                         const std::string& entry) {
  const ValueSpan* written_inline = spans.find(table);
  if (written_inline != nullptr && written_inline->kind == SpanKind::table) {
    return with_entry(text, *written_inline, entry);
  }
  const std::string newline = line_break(text);
  if (table.empty()) {
    const std::size_t start = text.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : 0;
    const std::size_t end = end_of_own_lines(spans, "");
    return with_lines(text, std::max(start, end), entry + newline);
  }
  if (spans.header(table) != nullptr) {
    return with_lines(text, end_of_own_lines(spans, table), entry + newline);
  }
  if (table.back() == ']') refuse(table, "no such table", "a table that is there");
  const std::string blank = text.empty() ? "" : newline;
  return with_lines(text, text.size(), blank + "[" + table + "]" + newline + entry + newline);
}

// The bytes of one entry of an inline table or list with the comma that goes with it.
std::pair<std::size_t, std::size_t> entry_with_comma(std::string_view text,
                                                     const ValueSpan& value) {
  const auto is_space = [&](std::size_t i) {
    return text[i] == ' ' || text[i] == '\t' || text[i] == '\n' || text[i] == '\r';
  };
  std::size_t after = value.end;
  while (after < text.size() && is_space(after)) ++after;
  std::size_t before = value.entry_begin;
  while (before > 0 && is_space(before - 1)) --before;
  if (before > 0 && text[before - 1] == ',') return {before - 1, value.end};
  if (after < text.size() && text[after] == ',') {
    ++after;
    while (after < text.size() && is_space(after)) ++after;
    return {value.entry_begin, after};
  }
  return {value.entry_begin, value.end};
}

std::string without_line(std::string_view text, const ValueSpan& value, const TomlSpans& spans) {
  for (const StatementSpan& statement : spans.statements) {
    if (statement.begin <= value.begin && value.end <= statement.end) {
      return replaced(text, statement.begin, statement.end, "");
    }
  }
  return std::string(text);
}

// Start of the blank line above `at`, or `at`.
std::size_t with_blank_line_above(std::string_view text, std::size_t at) {
  if (at == 0) return at;
  std::size_t start = at - 1;  // the break that ends the line above
  if (start > 0 && text[start - 1] == '\r') --start;
  if (start == 0 || text[start - 1] == '\n') return start;
  return at;
}

}  // namespace

std::string set_key(std::string_view text, const std::string& table, const std::string& key,
                    const std::string& value) {
  const std::string path = joined_path(table, key);
  const TomlNode new_value = parse_value(path, value);
  TomlNode wanted = parse_toml(text, "");
  TomlNode* in = node_at(wanted, table, true);
  if (in == nullptr || in->kind != TomlNode::Kind::table) {
    refuse(table, "no such table", "a table that is there");
  }
  *node_at(*in, key, true) = new_value;
  const TomlSpans spans = scan_toml(text);
  const ValueSpan* there = spans.find(path);
  std::string edited = there != nullptr ? replaced(text, there->begin, there->end, value)
                                        : with_new_key(text, spans, table, key + " = " + value);
  return checked(std::move(edited), wanted, path);
}

std::string remove_key(std::string_view text, const std::string& table, const std::string& key) {
  const std::string path = joined_path(table, key);
  TomlNode wanted = parse_toml(text, "");
  TomlNode* in = node_at(wanted, table, false);
  if (in == nullptr || in->find(key) == nullptr) return std::string(text);
  const auto at = std::find(in->keys.begin(), in->keys.end(), key) - in->keys.begin();
  erase_item(*in, static_cast<std::size_t>(at));
  const TomlSpans spans = scan_toml(text);
  const ValueSpan* there = spans.find(path);
  if (there == nullptr) refuse(path, "a table with its own header", "a key");
  if (there->on_own_line) return checked(without_line(text, *there, spans), wanted, path);
  const auto [begin, end] = entry_with_comma(text, *there);
  return checked(replaced(text, begin, end, ""), wanted, path);
}

std::string add_table(std::string_view text, const std::string& list, const KeyValues& keys) {
  TomlNode wanted = parse_toml(text, "");
  TomlNode added;
  for (const auto& [key, value] : keys) {
    added.keys.push_back(key);
    added.key_lines.push_back(0);
    added.items.push_back(parse_value(joined_path(list, key), value));
  }
  TomlNode* in = node_at(wanted, list, true);
  if (in == nullptr) refuse(list, "no such list", "a list of tables");
  // Made just now, it is an empty table.
  if (in->kind == TomlNode::Kind::table && in->items.empty()) in->kind = TomlNode::Kind::list;
  if (in->kind != TomlNode::Kind::list) refuse(list, describe(*in), "a list of tables");
  in->items.push_back(added);

  const TomlSpans spans = scan_toml(text);
  const std::size_t count = spans.count(list);
  const std::size_t end =
      count > 0 ? end_of_block(spans, list + "[" + std::to_string(count - 1) + "]") : text.size();
  const std::string newline = line_break(text);
  std::string lines = (text.empty() ? "" : newline) + "[[" + list + "]]" + newline;
  for (const auto& [key, value] : keys) lines.append(key).append(" = ").append(value) += newline;
  return checked(with_lines(text, end, lines), wanted, list);
}

std::string remove_table(std::string_view text, const std::string& table) {
  const auto [list, index] = list_and_index(table);
  TomlNode wanted = parse_toml(text, "");
  TomlNode* in = node_at(wanted, list, false);
  if (in == nullptr || in->kind != TomlNode::Kind::list || index >= in->items.size()) {
    refuse(table, "no such table", "a table that is there");
  }
  erase_item(*in, index);
  const TomlSpans spans = scan_toml(text);
  const StatementSpan* header = spans.header(table);
  if (header == nullptr) {
    const ValueSpan* there = spans.find(table);
    if (there == nullptr) refuse(table, "no such table", "a table that is there");
    const auto [begin, end] = entry_with_comma(text, *there);
    return checked(replaced(text, begin, end, ""), wanted, table);
  }
  if (in->items.empty()) {  // the list itself goes with its last table
    const std::size_t dot = list.rfind('.');
    TomlNode* parent =
        dot == std::string::npos ? &wanted : node_at(wanted, list.substr(0, dot), false);
    const std::string key = dot == std::string::npos ? list : list.substr(dot + 1);
    const auto at = std::find(parent->keys.begin(), parent->keys.end(), key) - parent->keys.begin();
    erase_item(*parent, static_cast<std::size_t>(at));
  }
  const std::size_t begin = with_blank_line_above(text, header->begin);
  return checked(replaced(text, begin, end_of_block(spans, table), ""), wanted, table);
}

}  // namespace hummock
