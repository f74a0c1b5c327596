#include "engine/toml/toml_tree.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <sstream>

#include "engine/base/input_file.h"

namespace hummock {
namespace {

int line_of(const toml::source_region& region) {
  return std::max(1, static_cast<int>(region.begin.line));
}

// No table of ours lies more than five deep. The tree is walked by functions that call themselves.
constexpr int kDeepest = 64;

TomlNode convert(const toml::node& node, const std::string& file, int depth);

void convert_table(const toml::table& table, const std::string& file, int depth, TomlNode& out) {
  struct Entry {
    const toml::key* key;
    const toml::node* value;
  };
  std::vector<Entry> entries;
  for (auto&& [key, value] : table) entries.push_back({&key, &value});
  // The library sorts by name; readers want the file's order.
  std::stable_sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    const auto& p = a.key->source().begin;
    const auto& q = b.key->source().begin;
    return p.line != q.line ? p.line < q.line : p.column < q.column;
  });
  for (const Entry& entry : entries) {
    out.keys.emplace_back(entry.key->str());
    out.key_lines.push_back(line_of(entry.key->source()));
    out.items.push_back(convert(*entry.value, file, depth + 1));
  }
}

TomlNode convert(const toml::node& node, const std::string& file, int depth) {
  if (depth > kDeepest) {
    throw InputError({file, line_of(node.source()), ""},
                     "lists and tables inside each other, more than 64 deep", "at most five deep");
  }
  TomlNode out;
  out.line = line_of(node.source());
  if (const auto* table = node.as_table()) {
    convert_table(*table, file, depth, out);
  } else if (const auto* list = node.as_array()) {
    out.kind = TomlNode::Kind::list;
    for (const toml::node& item : *list) out.items.push_back(convert(item, file, depth + 1));
  } else if (const auto* text = node.as_string()) {
    out.kind = TomlNode::Kind::text;
    out.text = text->get();
  } else if (const auto* integer = node.as_integer()) {
    out.kind = TomlNode::Kind::integer;
    out.integer = integer->get();
    out.number = static_cast<double>(out.integer);
  } else if (const auto* number = node.as_floating_point()) {
    out.kind = TomlNode::Kind::number;
    out.number = number->get();
  } else if (const auto* flag = node.as_boolean()) {
    out.kind = TomlNode::Kind::flag;
    out.flag = flag->get();
  } else {
    out.kind = TomlNode::Kind::date;
    if (const auto* day = node.as_date()) {
      out.text =
          fmt::format("{:04}-{:02}-{:02}", day->get().year, day->get().month, day->get().day);
    }
  }
  return out;
}

std::string on_one_line(std::string_view text, std::size_t longest) {
  std::string out;
  for (const char c : text.substr(0, longest)) {
    out += (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) ? ' ' : c;
  }
  // Cut at a whole UTF-8 character.
  if (text.size() > longest) {
    while (!out.empty() && (static_cast<unsigned char>(out.back()) & 0xC0) == 0x80) out.pop_back();
    if (!out.empty() && static_cast<unsigned char>(out.back()) >= 0xC0) out.pop_back();
    out += "…";
  }
  return out;
}

// The parser and the tree recurse along dotted keys and would run out of stack on a.a.a… without
// end. No key of ours has more than three parts; numbers in a list are kept apart by commas.
void refuse_endless_keys(std::string_view text, const std::string& file) {
  constexpr int kMostDots = 100;
  int line = 1, dots = 0;
  bool comment = false, fresh = true;  // fresh: nothing but blanks on this line so far
  for (const char c : text) {
    if (c == '\n') {
      ++line;
      fresh = true;
      comment = false;
    }
    if (fresh && c == '#') comment = true;
    if (c != ' ' && c != '\t' && c != '\n') fresh = false;
    if (c == '\n' || c == ',') dots = 0;
    if (c == '.' && !comment && ++dots > kMostDots) {
      throw InputError({file, line, ""}, "a line with more than 100 dots", "keys of a few parts");
    }
  }
}

}  // namespace

const TomlNode* TomlNode::find(std::string_view key) const {
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (keys[i] == key) return &items[i];
  }
  return nullptr;
}

std::string joined_path(const std::string& path, const std::string& key) {
  return path.empty() ? key : path + "." + key;
}

int line_of_path(const TomlNode& top, const std::string& path) {
  const TomlNode* node = &top;
  int line = top.line;
  std::istringstream parts(path);
  for (std::string part; std::getline(parts, part, '.');) {
    const std::string key = part.substr(0, part.find('['));
    const auto at = std::find(node->keys.begin(), node->keys.end(), key);
    if (at == node->keys.end()) return line;
    const auto i = static_cast<std::size_t>(at - node->keys.begin());
    line = node->key_lines[i];
    node = &node->items[i];
    if (key.size() == part.size()) continue;
    const std::size_t index = std::strtoul(part.c_str() + key.size() + 1, nullptr, 10);
    if (node->kind != TomlNode::Kind::list || index >= node->items.size()) return line;
    node = &node->items[index];
    line = node->line;
  }
  return line;
}

TomlNode parse_toml(std::string_view text, const std::string& file) {
  refuse_endless_keys(text, file);
  try {
    return convert(toml::parse(text, file), file, 0);
  } catch (const toml::parse_error& error) {
    throw InputError({file, line_of(error.source()), ""},
                     "a slip in the TOML (" + on_one_line(error.description(), 160) + ")",
                     "key = value lines, [tables] and [[lists of tables]]");
  }
}

std::string in_quotes(std::string_view text) {
  return "\"" + on_one_line(text, 60) + "\"";
}

std::string plain_number(double value) {
  if (std::isnan(value)) return "not-a-number";
  if (std::isinf(value)) return value > 0 ? "infinity" : "minus infinity";
  if (value == 0.0) return "0";
  const double size = std::abs(value);
  std::string text = size >= 1e-4 && size < 1e7 ? fmt::format("{:.6f}", value) : "";
  if (text.empty() || std::stod(text) != value) return fmt::format("{}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string describe(const TomlNode& node) {
  switch (node.kind) {
    case TomlNode::Kind::text:
      return in_quotes(node.text);
    case TomlNode::Kind::integer:
      return std::to_string(node.integer);
    case TomlNode::Kind::number:
      return plain_number(node.number);
    case TomlNode::Kind::flag:
      return node.flag ? "true" : "false";
    case TomlNode::Kind::date:
      return "a date or time";
    case TomlNode::Kind::list:
      return node.items.empty() ? "an empty list"
                                : "a list of " + std::to_string(node.items.size());
    case TomlNode::Kind::table:
      return "a table";
  }
  return "something else";
}

std::string read_text_file(const std::string& path, const std::string& what) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(path, ignored)) {
    const bool there = std::filesystem::exists(path, ignored);
    throw InputError({path, 0, ""}, there ? "not a file" : "no such file", what);
  }
  return read_input(path, "", {path, 0, ""}, what).bytes;
}

}  // namespace hummock
