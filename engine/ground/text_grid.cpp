#include "engine/ground/text_grid.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace hummock::ground {
namespace {

constexpr const char* kStage = "ground: survey";

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

// Words separated by white space, with the line each stands on.
class Words {
 public:
  explicit Words(std::string_view text) : text_(text) {}

  bool next() {
    word_.clear();
    int c = take();
    while (c == ' ' || c == '\t' || c == '\r' || c == '\n') {
      if (c == '\n') ++line_;
      c = take();
    }
    while (c != kEnd && c != ' ' && c != '\t' && c != '\r' && c != '\n') {
      if (word_.size() < 64) word_.push_back(static_cast<char>(c));
      c = take();
    }
    word_line_ = line_;
    if (c == '\n') ++line_;
    return !word_.empty();
  }
  const std::string& word() const { return word_; }
  int line() const { return word_line_; }
  double done() const { return static_cast<double>(at_) / static_cast<double>(text_.size()); }

 private:
  static constexpr int kEnd = -1;
  int take() { return at_ < text_.size() ? static_cast<unsigned char>(text_[at_++]) : kEnd; }

  std::string_view text_;
  std::size_t at_ = 0;
  std::string word_;
  int line_ = 1;
  int word_line_ = 1;
};

bool is_number(std::string_view text) {
  double value = 0.0;
  if (text.starts_with('+')) text.remove_prefix(1);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() && std::isfinite(value);
}

constexpr std::array<std::string_view, 16> kHeader = {
    "ncols",    "nrows", "xllcorner", "yllcorner",    "xllcenter", "yllcenter",
    "cellsize", "dx",    "dy",        "nodata_value", "north:",    "south:",
    "east:",    "west:", "rows:",     "cols:"};

bool is_header(const std::string& word) {
  return std::find(kHeader.begin(), kHeader.end(), word) != kHeader.end() || word == "null:" ||
         word == "type:" || word == "multiplier:";
}

class Check {
 public:
  Check(std::string_view bytes, const std::string& file, const Progress& progress)
      : words_(bytes), name_(file), progress_(progress) {}

  void run() {
    bool more = words_.next();
    while (more && is_header(lower(words_.word()))) more = header_row();
    const double expected = size("ncols", "cols:") * size("nrows", "rows:");
    double count = 0;
    for (; more; more = words_.next()) {
      height();
      if (static_cast<long long>(count) % kBetween == 0) progress_.step(kStage, words_.done());
      if (++count > expected) wrong_count("more than ", expected);
    }
    if (count < expected) wrong_count(fmt::format("{:.0f} of ", count), expected);
  }

 private:
  [[noreturn]] void refuse(const std::string& found, const std::string& allowed,
                           const std::string& key = {}) const {
    throw InputError({name_, words_.line(), key}, found, allowed);
  }
  [[noreturn]] void wrong_count(const std::string& found, double expected) const {
    refuse(fmt::format("{}{:.0f} heights", found, expected),
           "rows × columns heights, no more, no less");
  }

  // True when a word follows.
  bool header_row() {
    const std::string key = lower(words_.word());
    if (!words_.next()) refuse("nothing", "a value", key);
    const std::string& value = words_.word();
    const bool is_nodata = key == "nodata_value" || key == "null:" || key == "type:";
    if (is_nodata) nodata_ = lower(value);
    if (!is_nodata && !is_number(value)) refuse("'" + value + "'", "a number", key);
    values_[key] = value;
    return words_.next();
  }

  void height() const {
    const std::string& w = words_.word();
    if (is_number(w) || (!nodata_.empty() && lower(w) == nodata_)) return;
    refuse("'" + w + "'", "a height in metres");
  }

  double size(const char* arc, const char* grass) const {
    const auto it = values_.contains(arc) ? values_.find(arc) : values_.find(grass);
    double value = 0.0;
    if (it != values_.end()) {
      std::from_chars(it->second.data(), it->second.data() + it->second.size(), value);
    }
    if (value < 1.0 || value != std::floor(value)) {
      refuse(it == values_.end() ? "nothing" : "'" + it->second + "'", "a whole number above 0",
             arc);
    }
    return value;
  }

  static constexpr long long kBetween = 100'000;  // heights between looks at the progress

  Words words_;
  std::string name_;
  const Progress& progress_;
  std::string nodata_;
  std::map<std::string, std::string> values_;
};

}  // namespace

bool is_text_grid(std::string_view bytes) {
  Words words(bytes);
  if (!words.next()) return false;
  return is_header(lower(words.word()));
}

void check_text_grid(std::string_view bytes, const std::string& file, const Progress& progress) {
  Check(bytes, file, progress).run();
}

namespace {

// The first three words of a line; fewer when it has fewer.
std::vector<std::string> first_three(std::string_view line) {
  constexpr const char* kBetween = " \t\r,;";
  std::vector<std::string> words;
  std::size_t at = line.find_first_not_of(kBetween);
  while (at != std::string::npos && words.size() < 3) {
    const std::size_t end = line.find_first_of(kBetween, at);
    words.emplace_back(line.substr(at, end - at));
    at = end == std::string::npos ? end : line.find_first_not_of(kBetween, end);
  }
  return words;
}

}  // namespace

void check_point_grid(std::string_view bytes, const std::string& file, const Progress& progress) {
  std::size_t at = 0;
  for (int number = 1; at < bytes.size(); ++number) {
    const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
    const std::string_view line = bytes.substr(at, end - at);
    at = end + 1;
    if (number % 100'000 == 0) {
      progress.step(kStage, static_cast<double>(end) / static_cast<double>(bytes.size()));
    }
    const std::vector<std::string> words = first_three(line);
    const bool header = number == 1 && !words.empty() && !is_number(words.front());
    if (words.empty() || header) continue;
    for (const std::string& word : words) {
      if (is_number(word)) continue;
      throw InputError({file, number, ""}, "'" + word.substr(0, 40) + "'", "a number of metres");
    }
    if (words.size() == 3) continue;
    throw InputError({file, number, ""}, fmt::format("{} numbers", words.size()), "x, y and z");
  }
}

}  // namespace hummock::ground
