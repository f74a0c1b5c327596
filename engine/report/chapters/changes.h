// Differences between two site files and two sets of results, value by value.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"

namespace hummock::report {

struct Change {
  std::string what;  // "object split boulder: at[0]", "leap.margin"
  std::string a, b;  // "–" = not there
  std::optional<double> number_a, number_b;
};

// Every leaf that differs. Members of a list that carry a name are matched by it, others by their
// place in the list; of two long rows of numbers, only the place where they differ most. Numbers
// count as equal within 1e-9 of their size. The program's version and the brief, which has a table
// of its own, are left out.
std::vector<Change> result_changes(const nlohmann::json& a, const nlohmann::json& b);

// A path of the results as a curator says it: a figure by its title and unit in the catalogue, any
// other with its words parted: "leap, objects “boulder”, top m".
std::string in_words(const std::string& path);

// The same for the two files as written, key by key; a file that is not there counts as empty.
std::vector<Change> site_changes(const Site& a, const Site& b);

}  // namespace hummock::report
