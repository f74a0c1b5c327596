#include "engine/report/chapters/changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/check/catalogue.h"
#include "engine/report/chapters/numbers.h"
#include "engine/toml/toml_tree.h"

namespace hummock::report {
namespace {

using nlohmann::json;

std::string shown(const json* value) {
  if (value == nullptr || value->is_null()) return "–";
  if (value->is_string()) return value->get<std::string>();
  if (value->is_number()) return number(value->get<double>());
  if (value->is_boolean()) return value->get<bool>() ? "yes" : "no";
  if (value->empty()) return "nothing";
  return value->is_array() ? fmt::format("{} entries", value->size()) : "there";
}

bool alike(const json& a, const json& b) {
  if (a.is_number() && b.is_number()) {
    const double x = a.get<double>();
    const double y = b.get<double>();
    return std::abs(x - y) <= 1e-9 * std::max({1.0, std::abs(x), std::abs(y)});
  }
  return a == b;
}

// What a member of a list is known by.
std::string name_of(const json& item) {
  if (!item.is_object()) return "";
  for (const char* key : {"name", "what", "ask", "words", "item"}) {
    const auto found = item.find(key);
    if (found == item.end() || !found->is_string() || found->get<std::string>().empty()) continue;
    std::string name = found->get<std::string>();
    for (const char* more : {"thing", "where"}) {
      const auto second = item.find(more);
      if (second != item.end() && second->is_string()) name += " " + second->get<std::string>();
    }
    return name;
  }
  return "";
}

class Walk {
 public:
  explicit Walk(std::vector<Change>& changes) : changes_(changes) {}

  void go(const std::string& path, const json* a, const json* b) {
    if (a != nullptr && b != nullptr && alike(*a, *b)) return;
    const bool both = a != nullptr && b != nullptr;
    if (both && a->is_object() && b->is_object()) return members(path, *a, *b);
    if (both && a->is_array() && b->is_array()) return items(path, *a, *b);
    Change change{path, shown(a), shown(b), std::nullopt, std::nullopt};
    if (a != nullptr && a->is_number()) change.number_a = a->get<double>();
    if (b != nullptr && b->is_number()) change.number_b = b->get<double>();
    changes_.push_back(change);
  }

 private:
  void members(const std::string& path, const json& a, const json& b) {
    const std::string dot = path.empty() ? "" : path + ".";
    for (const auto& [key, value] : a.items()) {
      const auto other = b.find(key);
      go(dot + key, &value, other == b.end() ? nullptr : &*other);
    }
    for (const auto& [key, value] : b.items()) {
      if (a.find(key) == a.end()) go(dot + key, nullptr, &value);
    }
  }
  static const json* with_name(const json& list, const std::string& name, int which) {
    for (const json& item : list) {
      if (name_of(item) == name && which-- == 0) return &item;
    }
    return nullptr;
  }
  static int which_of(const json& list, std::size_t k) {
    int which = 0;
    for (std::size_t i = 0; i < k; ++i) which += name_of(list[i]) == name_of(list[k]) ? 1 : 0;
    return which;
  }
  static bool by_name(const json& list) {
    return !list.empty() && std::all_of(list.begin(), list.end(),
                                        [](const json& item) { return !name_of(item).empty(); });
  }
  // A long row of numbers (a curve) is told by where it differs most.
  static bool is_curve(const json& list) {
    constexpr std::size_t kLong = 12;
    return list.size() >= kLong &&
           std::all_of(list.begin(), list.end(), [](const json& v) { return v.is_number(); });
  }
  void curve(const std::string& path, const json& a, const json& b) {
    std::size_t most = 0;
    const auto off = [&](std::size_t k) {
      return std::abs(a[k].get<double>() - b[k].get<double>());
    };
    for (std::size_t k = 1; k < a.size(); ++k) {
      if (off(k) > off(most)) most = k;
    }
    go(fmt::format("{}[{}], where {} numbers differ most", path, most, a.size()), &a[most],
       &b[most]);
  }
  void items(const std::string& path, const json& a, const json& b) {
    if (a.size() == b.size() && is_curve(a) && is_curve(b)) return curve(path, a, b);
    if ((by_name(a) || a.empty()) && (by_name(b) || b.empty())) return named(path, a, b);
    const std::size_t n = std::max(a.size(), b.size());
    for (std::size_t k = 0; k < n; ++k) {
      go(fmt::format("{}[{}]", path, k), k < a.size() ? &a[k] : nullptr,
         k < b.size() ? &b[k] : nullptr);
    }
  }
  void named(const std::string& path, const json& a, const json& b) {
    for (std::size_t k = 0; k < a.size(); ++k) {
      const std::string name = name_of(a[k]);
      const int which = which_of(a, k);
      go(label(path, name, which), &a[k], with_name(b, name, which));
    }
    for (std::size_t k = 0; k < b.size(); ++k) {
      const std::string name = name_of(b[k]);
      const int which = which_of(b, k);
      if (with_name(a, name, which) == nullptr) go(label(path, name, which), nullptr, &b[k]);
    }
  }
  static std::string label(const std::string& path, const std::string& name, int which) {
    return which == 0 ? fmt::format("{} “{}”", path, name)
                      : fmt::format("{} “{}” ({})", path, name, which + 1);
  }
  std::vector<Change>& changes_;
};

json as_json(const TomlNode& node) {
  switch (node.kind) {
    case TomlNode::Kind::integer:
    case TomlNode::Kind::number:
      return node.number;
    case TomlNode::Kind::flag:
      return node.flag;
    case TomlNode::Kind::list: {
      json list = json::array();
      for (const TomlNode& item : node.items) list.push_back(as_json(item));
      return list;
    }
    case TomlNode::Kind::table: {
      json table = json::object();
      for (std::size_t k = 0; k < node.items.size(); ++k) {
        table[node.keys[k]] = as_json(node.items[k]);
      }
      return table;
    }
    case TomlNode::Kind::text:
    case TomlNode::Kind::date:
      return node.text;
  }
  return nullptr;
}

json file_json(const std::filesystem::path& file) {
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return json::object();
  return as_json(parse_toml(read_text_file(file.string(), "site file"), file.string()));
}

}  // namespace

std::string in_words(const std::string& path) {
  if (figure_info(path) != nullptr) {
    const KeyWords key = key_words(path);
    return key.unit.empty() || key.unit == "of 1" ? key.words : key.words + ", " + key.unit;
  }
  std::string words;
  bool name = false;  // of a thing, as the user wrote it
  for (std::size_t k = 0; k < path.size(); ++k) {
    if (path.compare(k, 3, "“") == 0) name = true;
    if (path.compare(k, 3, "”") == 0) name = false;
    if (!name && path[k] == '.')
      words += ", ";
    else
      words += !name && path[k] == '_' ? ' ' : path[k];
  }
  return words;
}

std::vector<Change> result_changes(const json& a, const json& b) {
  std::vector<Change> changes;
  json mine = a;
  json other = b;
  for (const char* key : {"program", "brief", "format"}) {
    mine.erase(key);
    other.erase(key);
  }
  Walk(changes).go("", &mine, &other);
  return changes;
}

std::vector<Change> site_changes(const Site& a, const Site& b) {
  std::vector<Change> changes;
  const json site_a = file_json(a.file);
  const json site_b = file_json(b.file);
  Walk(changes).go("", &site_a, &site_b);
  if (a.species_file != b.species_file) {
    const json species_a = file_json(a.species_file);
    const json species_b = file_json(b.species_file);
    Walk(changes).go("species file", &species_a, &species_b);
  }
  return changes;
}

}  // namespace hummock::report
