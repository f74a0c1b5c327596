// One expectation against what a run said.
#include <algorithm>
#include <cmath>
#include <limits>
#include <regex>
#include <sstream>

#include "tests/escapes/json_path.h"
#include "tests/escapes/judge.h"

namespace hummock::escapes {
namespace {

using nlohmann::json;

std::regex loose(const std::string& pattern) {
  return std::regex(pattern, std::regex::icase);
}

bool some_line(const std::string& printed, const std::string& pattern) {
  std::istringstream lines(printed);
  const std::regex expression = loose(pattern);
  for (std::string line; std::getline(lines, line);) {
    if (std::regex_search(line, expression)) return true;
  }
  return false;
}

std::string list_of(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : " | ") + w;
  return out;
}

bool is_one_of(const std::string& word, const std::vector<std::string>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

double number_of(const json& value) {
  if (value.is_null()) return std::numeric_limits<double>::infinity();
  if (value.is_number()) return value.get<double>();
  return std::numeric_limits<double>::quiet_NaN();
}

std::vector<double> numbers_that_count(const std::vector<json>& values, const std::string& of) {
  std::vector<double> numbers;
  numbers.reserve(values.size());
  for (const json& v : values) numbers.push_back(number_of(v));
  if (of == "every") return numbers;
  const auto ends = std::minmax_element(numbers.begin(), numbers.end());
  return {of == "least" ? *ends.first : *ends.second};
}

std::string wrong_number(const Expectation& e, const std::vector<json>& values) {
  for (const double v : numbers_that_count(values, e.of)) {
    const bool low = e.at_least && !(v >= *e.at_least);
    const bool high = e.at_most && !(v <= *e.at_most);
    if (!low && !high) continue;
    const double limit = low ? *e.at_least : *e.at_most;
    std::ostringstream words;
    words << "is " << v << ", the truth is at " << (low ? "least " : "most ") << limit;
    return words.str();
  }
  return {};
}

std::string wrong_word(const Expectation& e, const std::vector<json>& values) {
  for (const json& v : values) {
    const std::string word = v.is_string() ? v.get<std::string>() : v.dump();
    if (!is_one_of(word, e.one_of)) return "is " + word + ", the truth is " + list_of(e.one_of);
  }
  return {};
}

std::string figure_fault(const Expectation& e, const json& results) {
  std::vector<json> values;
  for (const std::string& path : e.at) {
    values = values_at(results, path);
    if (!values.empty()) break;
  }
  if (values.empty()) return e.may_be_absent ? "" : e.at.front() + " is not there";
  const std::string wrong = e.one_of.empty() ? wrong_number(e, values) : wrong_word(e, values);
  return wrong.empty() ? "" : e.at.front() + " " + wrong;
}

// `standing` where the program writes it, else the older `met`.
std::string standing_of(const json& row) {
  std::string word = row.value("standing", row.value("met", std::string()));
  std::replace(word.begin(), word.end(), ' ', '_');
  return word;
}

std::string row_fault(const Expectation& e, const json& results) {
  bool found = false;
  for (const json& row : results.value("brief", json::array())) {
    if (row.value("what", "") != e.row) continue;
    found = true;
    const std::string word = standing_of(row);
    if (!is_one_of(word, e.standing)) {
      return "the row " + e.row + " is told " + word + ", the truth is " + list_of(e.standing);
    }
  }
  return found ? "" : "no row " + e.row + " in the brief";
}

std::string pair_fault(const Expectation& e, const std::string& printed) {
  const std::regex expression = loose(e.no_pair);
  for (std::sregex_iterator at(printed.begin(), printed.end(), expression), end; at != end; ++at) {
    const double a = std::stod((*at)[1]), b = std::stod((*at)[2]);
    if (a < e.below[0] && b < e.below[1]) return "says '" + at->str() + "', and no such thing is";
  }
  return {};
}

}  // namespace

std::string fault_of(const Expectation& e, const json& results, const std::string& printed) {
  if (!e.says.empty()) return some_line(printed, e.says) ? "" : "no line says '" + e.says + "'";
  if (!e.never_says.empty()) {
    return some_line(printed, e.never_says) ? "a line says '" + e.never_says + "'" : "";
  }
  if (!e.no_pair.empty()) return pair_fault(e, printed);
  if (!e.or_says.empty() && some_line(printed, e.or_says)) return {};
  return e.row.empty() ? figure_fault(e, results) : row_fault(e, results);
}

}  // namespace hummock::escapes
