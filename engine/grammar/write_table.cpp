#include "engine/grammar/write_table.h"

#include <cmath>
#include <optional>
#include <utility>

namespace hummock::grammar {
namespace {

// To which digit a person writes it.
double step_of(const Row& row) {
  if (row.step > 0.0) return row.step;
  return row.kind == Kind::angle ? 0.1 : 0.001;
}

std::string number(const Row& row, double v, const Style& style) {
  if (style.digits == Digits::exact) return toml_number(v);
  const double step = step_of(row);
  // Through the nearest number with few digits: 0.30000000000000004 is nobody's measure.
  return toml_number(std::round(std::round(v / step) * step * 1e7) / 1e7 + 0.0);
}

std::string list_of(const Row& row, const Numbers& values, const Style& style) {
  std::string out = "[";
  for (const double v : values) out += (out.size() > 1 ? ", " : "") + number(row, v, style);
  return out + "]";
}

std::string points(const Row& row, const Points& values, const Style& style) {
  std::string out = "[";
  for (const Vec2 p : values) {
    out += (out.size() > 1 ? ", " : "") + list_of(row, {p.x, p.y}, style);
  }
  return out + "]";
}

std::string texts(const Words& values) {
  std::string out = "[";
  for (const std::string& v : values) out += (out.size() > 1 ? ", " : "") + toml_text(v);
  return out + "]";
}

std::string wholes(const Wholes& values) {
  std::string out = "[";
  for (const int v : values) out += (out.size() > 1 ? ", " : "") + toml_integer(v);
  return out + "]";
}

std::string text_of(const Row& row, const std::string& text, const Style& style) {
  if (row.kind == Kind::date) return text;
  if (row.kind != Kind::file || style.folder.empty()) return toml_text(text);
  return toml_text(std::filesystem::path(text).lexically_proximate(style.folder).generic_string());
}

std::string inline_table(const Table& table, const void* thing, const Style& style) {
  std::string out = "{ ";
  for (const auto& [key, value] : key_values(table, thing, style)) {
    if (out.size() > 2) out += ", ";
    out.append(key).append(" = ").append(value);
  }
  return out + " }";
}

void* child(const Row& row, const void* thing, std::size_t i) {
  return row.children.at(const_cast<void*>(thing), i);
}

std::string figure(const Row& row, void* thing, const Style& style) {
  const Table& table = row.table();
  const std::size_t records = table.records ? table.records.count(thing) : 0;
  if (records == 0) return inline_table(table, thing, style);
  std::string out = "[";
  for (std::size_t i = 0; i < records; ++i) {
    out += (i == 0 ? "" : ", ") + inline_table(table, table.records.at(thing, i), style);
  }
  return out + "]";
}

std::string list_of_tables(const Row& row, const void* thing, const Style& style) {
  std::string out = "[";
  for (std::size_t i = 0; i < row.children.count(thing); ++i) {
    out += (i == 0 ? "" : ", ") + inline_table(row.table(), child(row, thing, i), style);
  }
  return out + "]";
}

// Both things have the table: its keys one by one.
bool stands_in_both(const Row& row, const void* before, const void* after) {
  return row.kind == Kind::table && row.children.count(before) > 0 && row.children.count(after) > 0;
}

// A list inside a thing of a list (the vents of a house) is a value of its own, all of it written
// again when one comes or goes. Nothing when it stands in the file as tables with headers instead.
std::optional<std::string> write_list_anew(const std::string& text, const std::string& path,
                                           const Row& row, const void* after, const Style& style) {
  if (path.find('[') == std::string::npos) return std::nullopt;
  const std::string owner = path.substr(0, path.rfind('.'));
  try {
    if (row.children.count(after) == 0) return remove_key(text, owner, row.key);
    return set_key(text, owner, row.key, list_of_tables(row, after, style));
  } catch (const InputError&) {
    return std::nullopt;
  }
}

std::string write_list_changes(std::string text, const std::string& path, const Row& row,
                               const void* before, const void* after, const Style& style) {
  const auto at = [&](std::size_t i) { return path + "[" + std::to_string(i) + "]"; };
  const std::size_t old_count = row.children.count(before), count = row.children.count(after);
  if (old_count != count) {
    if (auto anew = write_list_anew(text, path, row, after, style)) return *std::move(anew);
  }
  for (std::size_t i = old_count; i > count; --i) text = remove_table(text, at(i - 1));
  for (std::size_t i = 0; i < std::min(old_count, count); ++i) {
    text =
        write_changes(text, at(i), row.table(), child(row, before, i), child(row, after, i), style);
  }
  for (std::size_t i = old_count; i < count; ++i) {
    text = add_table(text, path, key_values(row.table(), child(row, after, i), style));
  }
  return text;
}

void write_block(const Table& table, const void* thing, const std::string& path, const Style& style,
                 std::string& out) {
  for (const Row& row : table.rows) {
    const bool apart = row.kind == Kind::tables || (row.kind == Kind::table && path.empty());
    const std::string value = apart ? "" : spelled_in(row, table, thing, style);
    if (!value.empty()) out += row.key + " = " + value + "\n";
  }
  for (const Row& row : table.rows) {
    const bool list = row.kind == Kind::tables;
    if (!list && (row.kind != Kind::table || !path.empty())) continue;
    const std::string inner = path.empty() ? row.key : path + "." + row.key;
    for (std::size_t i = 0; i < row.children.count(thing); ++i) {
      out += list ? "\n[[" + inner + "]]\n" : "\n[" + inner + "]\n";
      write_block(row.table(), child(row, thing, i), inner, style, out);
    }
  }
}

}  // namespace

std::string spelled(const Row& row, const Value& value, const Style& style) {
  if (const auto* v = std::get_if<double>(&value)) return number(row, *v, style);
  if (const auto* v = std::get_if<int>(&value)) return toml_integer(*v);
  if (const auto* v = std::get_if<bool>(&value)) return toml_flag(*v);
  if (const auto* v = std::get_if<std::string>(&value)) return text_of(row, *v, style);
  if (const auto* v = std::get_if<Vec2>(&value)) return list_of(row, {v->x, v->y}, style);
  if (const auto* v = std::get_if<Numbers>(&value)) return list_of(row, *v, style);
  if (const auto* v = std::get_if<Wholes>(&value)) return wholes(*v);
  if (const auto* v = std::get_if<Points>(&value)) return points(row, *v, style);
  if (const auto* v = std::get_if<Words>(&value)) return texts(*v);
  return "";
}

std::string spelled_in(const Row& row, const Table& table, const void* thing, const Style& style) {
  if (!means_something(row, thing)) return "";
  if (has_table(row)) {
    if (row.children.count(thing) == 0) return "";
    if (row.kind == Kind::tables) return list_of_tables(row, thing, style);
    return row.kind == Kind::figure ? figure(row, child(row, thing, 0), style)
                                    : inline_table(row.table(), child(row, thing, 0), style);
  }
  const Value value = value_of(row, thing);
  if (!given(value)) return "";
  const bool at_default = value == value_of(row, table.make().get());
  return at_default && !row.needed ? "" : spelled(row, value, style);
}

KeyValues key_values(const Table& table, const void* thing, const Style& style) {
  KeyValues out;
  for (const Row& row : table.rows) {
    std::string value = spelled_in(row, table, thing, style);
    if (!value.empty()) out.emplace_back(row.key, std::move(value));
  }
  return out;
}

std::string write_changes(const std::string& text, const std::string& path, const Table& table,
                          const void* before, const void* after, const Style& style) {
  std::string out = text;
  for (const Row& row : table.rows) {
    const std::string inner = path.empty() ? row.key : path + "." + row.key;
    if (row.kind == Kind::tables) {
      out = write_list_changes(std::move(out), inner, row, before, after, style);
    } else if (stands_in_both(row, before, after)) {
      out = write_changes(out, inner, row.table(), child(row, before, 0), child(row, after, 0),
                          style);
    } else {
      const std::string was = spelled_in(row, table, before, style);
      const std::string is = spelled_in(row, table, after, style);
      if (was == is) continue;
      out = is.empty() ? remove_key(out, path, row.key) : set_key(out, path, row.key, is);
    }
  }
  return out;
}

std::string written(const Table& top, const void* thing, const Style& style) {
  std::string out;
  write_block(top, thing, "", style, out);
  return out;
}

}  // namespace hummock::grammar
