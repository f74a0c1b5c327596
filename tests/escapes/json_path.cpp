#include "tests/escapes/json_path.h"

#include <algorithm>
#include <cctype>

namespace hummock::escapes {
namespace {

using nlohmann::json;

bool is_called(const json& item, const std::string& name) {
  if (!item.is_object()) return false;
  for (const char* key : {"name", "what", "where", "thing"}) {
    const auto found = item.find(key);
    if (found != item.end() && found->is_string() && *found == name) return true;
  }
  return false;
}

std::vector<json> chosen(const json& list, const std::string& which) {
  std::vector<json> out;
  if (!list.is_array()) return out;
  const bool number =
      !which.empty() &&
      std::all_of(which.begin(), which.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  for (std::size_t k = 0; k < list.size(); ++k) {
    const bool wanted =
        which.empty() || (number ? std::to_string(k) == which : is_called(list[k], which));
    if (wanted) out.push_back(list[k]);
  }
  return out;
}

// One step of the path over all values so far; `path` keeps what is left.
std::vector<json> step(const std::vector<json>& values, std::string& path) {
  std::vector<json> out;
  if (path.front() == '[') {
    const std::size_t end = path.find(']');
    for (const json& v : values) {
      for (json& item : chosen(v, path.substr(1, end - 1))) out.push_back(std::move(item));
    }
    path.erase(0, end + 1);
  } else {
    const std::size_t end = std::min(path.find_first_of(".["), path.size());
    for (const json& v : values) {
      if (v.is_object() && v.contains(path.substr(0, end))) out.push_back(v[path.substr(0, end)]);
    }
    path.erase(0, end);
  }
  if (!path.empty() && path.front() == '.') path.erase(0, 1);
  return out;
}

}  // namespace

std::vector<json> values_at(const json& top, const std::string& path) {
  std::vector<json> values{top};
  for (std::string left = path; !left.empty() && !values.empty();) values = step(values, left);
  return values;
}

}  // namespace hummock::escapes
