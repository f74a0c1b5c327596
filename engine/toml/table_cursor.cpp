#include "engine/toml/table_cursor.h"

#include <algorithm>
#include <cmath>

namespace hummock {
namespace {

// Every pair of edges is looked at, so an outline traced from a scan must be thinned first.
constexpr std::size_t kMostCorners = 2000;

std::string listed(const std::vector<std::string>& words, const std::string& quote) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += quote;
    out += words[i];
    out += quote;
  }
  return out;
}

std::string without_indices(const std::string& path) {
  std::string out;
  bool inside = false;
  for (const char c : path) {
    if (c == '[') inside = true;
    if (!inside) out += c;
    if (c == ']') inside = false;
  }
  return out;
}

// Only plain names go into a path as they are; anything else is quoted so that the line stays one.
std::string shown_key(const std::string& key) {
  const bool plain = !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
  return plain ? key : in_quotes(key);
}

const std::vector<std::string>& keys_of(const TableKeys& schema, const std::string& path) {
  static const std::vector<std::string> none;
  const auto found = schema.find(without_indices(path));
  return found == schema.end() ? none : found->second;
}

}  // namespace

TableCursor::TableCursor(const TomlNode& node, std::string path, std::string file,
                         const TableKeys& schema)
    : node_(&node), path_(std::move(path)), file_(std::move(file)), schema_(&schema) {
  const std::vector<std::string>& allowed = keys_of(schema, path_);
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    const std::string& key = node.keys[i];
    if (std::find(allowed.begin(), allowed.end(), key) != allowed.end()) continue;
    const auto near = nearest_word(key, allowed);
    throw InputError(
        {file_, node.key_lines[i], joined_path(path_, shown_key(key))}, "an unknown key",
        near ? "\"" + *near + "\" (did you mean that?)" : "one of " + listed(allowed, ""));
  }
}

Where TableCursor::where() const {
  return {file_, node_->line, path_};
}

Where TableCursor::where(const char* key) const {
  for (std::size_t i = 0; i < node_->keys.size(); ++i) {
    if (node_->keys[i] == key) return {file_, node_->key_lines[i], joined_path(path_, key)};
  }
  return {file_, node_->line, joined_path(path_, key)};
}

bool TableCursor::has(const char* key) const {
  return node_->find(key) != nullptr;
}

void TableCursor::refuse(const char* key, const std::string& found,
                         const std::string& allowed) const {
  throw InputError(where(key), found, allowed);
}

const TomlNode* TableCursor::raw(const char* key) {
  used_.insert(key);
  return node_->find(key);
}

const TomlNode& TableCursor::required(const char* key, const std::string& allowed) {
  const TomlNode* node = raw(key);
  if (node == nullptr) refuse(key, "nothing", allowed);
  return *node;
}

Where TableCursor::item(const char* key, std::size_t index, const TomlNode& node) const {
  return {file_, node.line, joined_path(path_, key) + "[" + std::to_string(index) + "]"};
}

double TableCursor::checked(const TomlNode& node, const Where& where, const Range& range) const {
  const bool is_number =
      node.kind == TomlNode::Kind::number || node.kind == TomlNode::Kind::integer;
  const double value = node.number;
  const bool above = range.above_lo ? value > range.lo : value >= range.lo;
  if (!is_number || !std::isfinite(value) || !above || value > range.hi) {
    throw InputError(where, describe(node), in_words(range));
  }
  return value;
}

double TableCursor::number(const char* key, Range range) {
  return checked(required(key, in_words(range)), where(key), range);
}

double TableCursor::number(const char* key, Range range, double otherwise) {
  return maybe_number(key, range).value_or(otherwise);
}

std::optional<double> TableCursor::maybe_number(const char* key, Range range) {
  const TomlNode* node = raw(key);
  if (node == nullptr) return std::nullopt;
  return checked(*node, where(key), range);
}

double TableCursor::angle(const char* key, Range degrees) {
  return number(key, degrees) * geom::kDegree;
}

double TableCursor::angle(const char* key, Range degrees, double otherwise_radians) {
  const auto value = maybe_number(key, degrees);
  return value ? *value * geom::kDegree : otherwise_radians;
}

int TableCursor::integer(const char* key, int lo, int hi) {
  const std::string allowed =
      lo == hi ? "the number " + std::to_string(lo)
               : "a whole number from " + std::to_string(lo) + " to " + std::to_string(hi);
  const TomlNode& node = required(key, allowed);
  if (node.kind != TomlNode::Kind::integer || node.integer < lo || node.integer > hi) {
    refuse(key, describe(node), allowed);
  }
  return static_cast<int>(node.integer);
}

int TableCursor::integer(const char* key, int lo, int hi, int otherwise) {
  return has(key) ? integer(key, lo, hi) : otherwise;
}

bool TableCursor::flag(const char* key, bool otherwise) {
  const TomlNode* node = raw(key);
  if (node == nullptr) return otherwise;
  if (node->kind != TomlNode::Kind::flag) refuse(key, describe(*node), "true or false");
  return node->flag;
}

std::string TableCursor::text(const char* key) {
  const TomlNode& node = required(key, "a text in quotes");
  if (node.kind != TomlNode::Kind::text) refuse(key, describe(node), "a text in quotes");
  if (node.text.find_first_not_of(" \t\r\n") == std::string::npos) {
    refuse(key, "an empty text", "a text in quotes");
  }
  return node.text;
}

std::string TableCursor::text(const char* key, const std::string& otherwise) {
  return has(key) ? text(key) : otherwise;
}

std::string TableCursor::choice(const char* key, const std::vector<std::string>& allowed) {
  const std::string words = listed(allowed, "\"");
  const TomlNode& node = required(key, words);
  if (node.kind != TomlNode::Kind::text ||
      std::find(allowed.begin(), allowed.end(), node.text) == allowed.end()) {
    refuse(key, describe(node), words);
  }
  return node.text;
}

std::string TableCursor::choice(const char* key, const std::vector<std::string>& allowed,
                                const std::string& otherwise) {
  return has(key) ? choice(key, allowed) : otherwise;
}

std::vector<std::string> TableCursor::choices(const char* key,
                                              const std::vector<std::string>& allowed) {
  const std::string words = "a list of any of " + listed(allowed, "\"");
  const TomlNode& node = required(key, words);
  if (node.kind != TomlNode::Kind::list) refuse(key, describe(node), words);
  std::vector<std::string> out;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const TomlNode& one = node.items[i];
    if (one.kind != TomlNode::Kind::text ||
        std::find(allowed.begin(), allowed.end(), one.text) == allowed.end()) {
      throw InputError(item(key, i, one), describe(one), words);
    }
    out.push_back(one.text);
  }
  return out;
}

std::vector<int> TableCursor::integers(const char* key, int lo, int hi) {
  const std::string one_of =
      "whole numbers from " + std::to_string(lo) + " to " + std::to_string(hi);
  const TomlNode& node = required(key, "a list of " + one_of);
  if (node.kind != TomlNode::Kind::list || node.items.empty()) {
    refuse(key, describe(node), "a list of " + one_of);
  }
  std::vector<int> out;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const TomlNode& one = node.items[i];
    if (one.kind != TomlNode::Kind::integer || one.integer < lo || one.integer > hi) {
      throw InputError(item(key, i, one), describe(one), one_of);
    }
    out.push_back(static_cast<int>(one.integer));
  }
  return out;
}

std::vector<double> TableCursor::numbers(const char* key, std::size_t count, Range range) {
  const std::string words = "a list of " + std::to_string(count) + " numbers";
  const TomlNode& node = required(key, words);
  if (node.kind != TomlNode::Kind::list || node.items.size() != count) {
    refuse(key, describe(node), words);
  }
  std::vector<double> out;
  for (std::size_t i = 0; i < count; ++i) {
    out.push_back(checked(node.items[i], item(key, i, node.items[i]), range));
  }
  return out;
}

geom::Vec2 TableCursor::checked_point(const TomlNode& node, const Where& where) const {
  if (node.kind != TomlNode::Kind::list || node.items.size() != 2) {
    throw InputError(where, describe(node), "a point [x, y] (m)");
  }
  return {checked(node.items[0], where, kCoordinate), checked(node.items[1], where, kCoordinate)};
}

geom::Vec2 TableCursor::point(const char* key) {
  return checked_point(required(key, "a point [x, y] (m)"), where(key));
}

geom::Vec3 TableCursor::size(const char* key) {
  const auto n = numbers(key, 3, {0.0, 200.0, "m", true});
  return {n[0], n[1], n[2]};
}

std::vector<geom::Vec2> TableCursor::path(const char* key, int least) {
  const std::string words = "a list of " + std::to_string(least) + " or more points [x, y] (m)";
  const TomlNode& node = required(key, words);
  if (node.kind != TomlNode::Kind::list || node.items.size() < static_cast<std::size_t>(least)) {
    refuse(key, describe(node), words);
  }
  std::vector<geom::Vec2> out;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    out.push_back(checked_point(node.items[i], item(key, i, node.items[i])));
  }
  return out;
}

geom::Polygon TableCursor::polygon(const char* key) {
  geom::Polygon outline = path(key, 3);
  if (outline.size() > kMostCorners) {
    refuse(key, "a list of " + std::to_string(outline.size()),
           "at most " + std::to_string(kMostCorners) + " corners; simplify the outline");
  }
  const std::vector<TomlNode>& corners = node_->find(key)->items;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    if (geom::distance(outline[i], outline[(i + 1) % outline.size()]) > 1e-6) continue;
    throw InputError(item(key, i, corners[i]),
                     "an edge of no length (edge " + std::to_string(i) + ")",
                     "corners apart from each other, the first not repeated at the end");
  }
  const auto crossing = geom::first_self_crossing(outline);
  if (!crossing) return outline;
  const auto [i, j] = *crossing;
  const auto at = static_cast<std::size_t>(j);
  throw InputError(
      item(key, at, corners[at]),
      "edges " + std::to_string(i) + " and " + std::to_string(j) + " that touch or cross",
      "an outline that does not meet itself");
}

std::vector<std::array<double, 2>> TableCursor::pairs(const char* key, Range a, Range b,
                                                      const char* form) {
  const std::string words = std::string("a list, each ") + form;
  const TomlNode& node = required(key, words);
  if (node.kind != TomlNode::Kind::list || node.items.empty()) refuse(key, describe(node), words);
  std::vector<std::array<double, 2>> out;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const TomlNode& one = node.items[i];
    const Where at = item(key, i, one);
    if (one.kind != TomlNode::Kind::list || one.items.size() != 2) {
      throw InputError(at, describe(one), form);
    }
    out.push_back({checked(one.items[0], at, a), checked(one.items[1], at, b)});
  }
  return out;
}

std::optional<TableCursor> TableCursor::table(const char* key) {
  const TomlNode* node = raw(key);
  if (node == nullptr) return std::nullopt;
  if (node->kind != TomlNode::Kind::table) refuse(key, describe(*node), "a table");
  return TableCursor(*node, joined_path(path_, key), file_, *schema_);
}

std::vector<TableCursor> TableCursor::tables(const char* key) {
  std::vector<TableCursor> out;
  const TomlNode* node = raw(key);
  if (node == nullptr) return out;
  const std::string words =
      "a list of tables, [[" + joined_path(without_indices(path_), key) + "]]";
  if (node->kind != TomlNode::Kind::list) refuse(key, describe(*node), words);
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const TomlNode& one = node->items[i];
    const Where at = item(key, i, one);
    if (one.kind != TomlNode::Kind::table) throw InputError(at, describe(one), words);
    out.emplace_back(one, at.key, file_, *schema_);
  }
  return out;
}

void TableCursor::done(const std::string& what) const {
  for (std::size_t i = 0; i < node_->keys.size(); ++i) {
    if (used_.count(node_->keys[i]) > 0) continue;
    throw InputError({file_, node_->key_lines[i], joined_path(path_, node_->keys[i])},
                     "a key that " + what + " does not have",
                     "one of " + listed(std::vector<std::string>(used_.begin(), used_.end()), ""));
  }
}

}  // namespace hummock
