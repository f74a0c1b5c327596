// The hourly climate file of a site.
#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdio>
#include <optional>
#include <sstream>
#include <string_view>

#include "engine/base/input_file.h"
#include "engine/houses/houses.h"
#include "engine/site/doubtful.h"

namespace hummock::houses {
namespace {

std::string_view trimmed(std::string_view s) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!s.empty() && blank(s.front())) s.remove_prefix(1);
  while (!s.empty() && blank(s.back())) s.remove_suffix(1);
  if (s.size() >= 2 && s.front() == '"' && s.back() == '"') s = s.substr(1, s.size() - 2);
  return s;
}

std::vector<std::string_view> fields_of(std::string_view line) {
  std::vector<std::string_view> fields;
  for (std::size_t from = 0; from <= line.size();) {
    const std::size_t comma = std::min(line.find(',', from), line.size());
    fields.push_back(trimmed(line.substr(from, comma - from)));
    from = comma + 1;
  }
  return fields;
}

struct Columns {
  std::size_t time = 0, temperature = 0;
};

Columns columns_of(std::string_view header, const Where& where) {
  if (header.starts_with("\xEF\xBB\xBF")) header.remove_prefix(3);
  std::optional<std::size_t> time, temperature;
  const auto fields = fields_of(header);
  for (std::size_t k = 0; k < fields.size(); ++k) {
    if (fields[k] == "time") time = k;
    if (fields[k] == "temperature") temperature = k;
  }
  if (!time || !temperature)
    throw InputError(where, fmt::format("the header \"{}\"", std::string(trimmed(header))),
                     "a header line naming the columns time and temperature");
  return {*time, *temperature};
}

double temperature_in(std::string_view field, const Where& where) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), value);
  const bool number = error == std::errc() && end == field.data() + field.size();
  if (!number || !(value >= -90.0 && value <= 60.0))
    throw InputError(where, fmt::format("\"{}\"", field), "a temperature from -90 to 60 (°C)");
  return value;
}

// Minutes since an old midnight, for times written YYYY-MM-DD HH:MM (or with a T); days by the
// civil calendar (from memory: the usual shift of the year to begin in March).
std::optional<long> minutes_of(const std::string& time) {
  int y = 0, m = 0, d = 0, hour = 0, minute = 0;
  char between = 0;
  if (std::sscanf(time.c_str(), "%4d-%2d-%2d%c%2d:%2d", &y, &m, &d, &between, &hour, &minute) != 6)
    return std::nullopt;
  const long shifted = m > 2 ? y : y - 1L;
  const long month = (m + 9) % 12;
  const long days =
      365 * shifted + shifted / 4 - shifted / 100 + shifted / 400 + (153 * month + 2) / 5 + d;
  return (days * 24 + hour) * 60 + minute;
}

void check_step(const std::vector<ClimateHour>& rows, const Where& where) {
  if (rows.size() < 2) return;
  const auto a = minutes_of(rows[rows.size() - 2].time), b = minutes_of(rows.back().time);
  if (a && b && *b >= *a && *b - *a < 60)
    throw InputError(where,
                     fmt::format("{} after {}", rows.back().time, rows[rows.size() - 2].time),
                     "rows one hour apart");
}

// Minutes to the next row; nothing when a time cannot be read or goes back (a typical year is put
// together from months of several years).
std::optional<long> step_after(const std::vector<ClimateHour>& rows, std::size_t k) {
  if (k + 1 >= rows.size()) return std::nullopt;
  const auto a = minutes_of(rows[k].time), b = minutes_of(rows[k + 1].time);
  constexpr long kLongest = 24 * 60;  // a longer step is a gap or another year
  if (!a || !b || *b <= *a || *b - *a > kLongest) return std::nullopt;
  return *b - *a;
}

void set_hours(std::vector<ClimateHour>& rows) {
  double last = 1.0;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    if (const auto step = step_after(rows, k)) last = static_cast<double>(*step) / 60.0;
    rows[k].hours = last;
  }
}

void refuse_doubtful(const std::vector<ClimateHour>& rows, const Site& site) {
  const Where where{site.climate.string(), 0, "climate"};
  double hours = 0.0;
  for (const ClimateHour& row : rows) {
    hours += row.hours;
    if (!minutes_of(row.time))
      refuse_unless_accepted(site.accept, "climate-times", where, "the time \"" + row.time + "\"",
                             "times written YYYY-MM-DD HH:MM, one row an hour");
    if (row.hours != 1.0)
      refuse_unless_accepted(site.accept, "climate-step", where,
                             fmt::format("rows {:g} hours apart after {}", row.hours, row.time),
                             "rows one hour apart");
  }
  if (hours != 8760.0 && hours != 8784.0)
    refuse_unless_accepted(site.accept, "climate-year", where, fmt::format("{:g} hours", hours),
                           "a year of 8760 or 8784 hours");
}

}  // namespace

std::vector<ClimateHour> climate_of(const Site& site, std::vector<InputFile>* read) {
  std::vector<ClimateHour> rows = read_climate(site.climate, read);
  refuse_doubtful(rows, site);
  return rows;
}

std::vector<ClimateHour> read_climate(const std::filesystem::path& file,
                                      std::vector<InputFile>* read) {
  InputBytes all = read_input(file, "climate", {file.string(), 0, "climate"}, "an hourly CSV file");
  if (read != nullptr) read->push_back(all.record);
  std::istringstream in(std::move(all.bytes));
  std::string line;
  Where where{file.string(), 1, "climate"};
  std::getline(in, line);
  const Columns columns = columns_of(line, where);
  std::vector<ClimateHour> rows;
  while (std::getline(in, line)) {
    ++where.line;
    if (trimmed(line).empty()) continue;
    const auto fields = fields_of(line);
    if (fields.size() <= std::max(columns.time, columns.temperature))
      throw InputError(where, fmt::format("{} fields", fields.size()), "as many as the header has");
    rows.push_back(
        {std::string(fields[columns.time]), temperature_in(fields[columns.temperature], where)});
    check_step(rows, where);
  }
  if (rows.empty()) throw InputError({file.string(), 0, "climate"}, "no rows", "one row an hour");
  set_hours(rows);
  return rows;
}

}  // namespace hummock::houses
