#include "engine/ground/point_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <sstream>
#include <string>
#include <string_view>
#include <tuple>

namespace hummock::ground {
namespace {

constexpr double kSameHeight = 0.001;  // m
constexpr double kFarthest = 1e8;      // m

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\"";
  const std::size_t from = text.find_first_not_of(kBlank);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(kBlank) - from + 1);
}

std::vector<std::string_view> fields_of(std::string_view line, char separator) {
  std::vector<std::string_view> fields;
  while (true) {
    const std::size_t end = line.find(separator);
    fields.push_back(trimmed(line.substr(0, end)));
    if (end == std::string_view::npos) return fields;
    line.remove_prefix(end + 1);
  }
}

struct Columns {
  std::array<std::size_t, 3> xyz{};
  char separator = ',';
};

class PointFile {
 public:
  PointFile(const std::filesystem::path& file, const Where& where) : name_(file.string()) {
    constexpr const char* kWanted = "a CSV file of points that can be read";
    std::error_code failed;
    if (!std::filesystem::is_regular_file(file, failed)) {
      throw InputError(where, "no file '" + name_ + "'", kWanted);
    }
    InputBytes all = read_input(file, "ground points", where, kWanted);
    record_ = std::move(all.record);
    in_.str(std::move(all.bytes));
  }
  const InputFile& record() const { return record_; }

  std::vector<SurveyPoint> read() {
    const Columns columns = header();
    std::vector<SurveyPoint> points;
    while (next_line()) points.push_back({point(columns), line_number_});
    return points;
  }

 private:
  [[noreturn]] void refuse(const std::string& found, const std::string& allowed,
                           const std::string& key = {}) const {
    throw InputError({name_, line_number_, key}, found, allowed);
  }

  // The next line that holds something.
  bool next_line() {
    while (std::getline(in_, line_)) {
      ++line_number_;
      if (line_number_ == 1 && line_.starts_with("\xEF\xBB\xBF")) line_.erase(0, 3);
      if (const auto text = trimmed(line_); !text.empty() && text.front() != '#') return true;
    }
    return false;
  }

  Columns header() {
    constexpr const char* kWanted = "a header that names x, y and z, then a point a line";
    if (!next_line()) refuse("an empty file", kWanted);
    Columns columns;
    columns.separator = line_.find(';') != std::string::npos ? ';' : ',';
    const auto names = fields_of(line_, columns.separator);
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const auto is_axis = [&](std::string_view name) {
        return name.size() == 1 && (name[0] == "xyz"[axis] || name[0] == "XYZ"[axis]);
      };
      const auto it = std::find_if(names.begin(), names.end(), is_axis);
      if (it == names.end()) refuse("'" + line_.substr(0, 60) + "'", kWanted);
      columns.xyz[axis] = static_cast<std::size_t>(it - names.begin());
    }
    return columns;
  }

  geom::Vec3 point(const Columns& columns) const {
    const auto fields = fields_of(line_, columns.separator);
    std::array<double, 3> value{};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const std::string key(1, "xyz"[axis]);
      const std::size_t column = columns.xyz[axis];
      if (column >= fields.size()) {
        refuse(fmt::format("{} fields", fields.size()),
               fmt::format("at least {} fields", column + 1), key);
      }
      value[axis] = number(fields[column], key);
    }
    return {value[0], value[1], value[2]};
  }

  double number(std::string_view text, const std::string& key) const {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc() && end == text.data() + text.size();
    if (!whole || !std::isfinite(value) || std::abs(value) > kFarthest) {
      refuse("'" + std::string(text.substr(0, 40)) + "'", "a number of metres", key);
    }
    return value;
  }

  std::string name_;
  std::istringstream in_;
  InputFile record_;
  std::string line_;
  int line_number_ = 0;
};

// Drops repeats; `points` in order of place.
std::vector<SurveyPoint> each_place_once(const std::vector<SurveyPoint>& points,
                                         const std::string& file) {
  std::vector<SurveyPoint> once;
  for (const SurveyPoint& p : points) {
    const bool repeat = !once.empty() && xy(once.back().at) == xy(p.at);
    if (!repeat) {
      once.push_back(p);
    } else if (std::abs(once.back().at.z - p.at.z) > kSameHeight) {
      throw InputError({file, p.line, "z"},
                       fmt::format("{} m at a place that line {} puts at {} m", p.at.z,
                                   once.back().line, once.back().at.z),
                       "one height for one place");
    }
  }
  return once;
}

}  // namespace

std::vector<SurveyPoint> read_points(const std::filesystem::path& file, const Where& where,
                                     std::vector<InputFile>* read) {
  PointFile from(file, where);
  if (read != nullptr) read->push_back(from.record());
  std::vector<SurveyPoint> points = from.read();
  const auto key = [](const SurveyPoint& p) { return std::tuple(p.at.x, p.at.y, p.line); };
  std::sort(points.begin(), points.end(),
            [&](const SurveyPoint& a, const SurveyPoint& b) { return key(a) < key(b); });
  return each_place_once(points, file.string());
}

}  // namespace hummock::ground
