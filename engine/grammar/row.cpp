#include "engine/grammar/row.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace hummock::grammar {
namespace {

Value in_degrees(const Value& radians) {
  const double* r = std::get_if<double>(&radians);
  return r != nullptr ? Value(degrees_of(*r)) : radians;
}

}  // namespace

std::string month_day(MonthDay day) {
  char text[16];
  std::snprintf(text, sizeof text, "%02d-%02d", day.month, day.day);
  return text;
}

MonthDay month_day(const std::string& text) {
  return {std::stoi(text.substr(0, 2)), std::stoi(text.substr(3, 2))};
}

const Row* Table::find(const std::string& key) const {
  const auto at =
      std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.key == key; });
  return at == rows.end() ? nullptr : &*at;
}

double degrees_of(double radians) {
  const double plain = radians / geom::kDegree;
  for (const double step : {1e-6, 1e-9, 1e-12}) {
    const double few = std::round(plain / step) * step;
    char digits[40];
    std::snprintf(digits, sizeof digits, "%.15g", few);
    const double short_one = std::stod(digits);
    if (short_one * geom::kDegree == radians) return short_one;
  }
  for (const double near : {plain, std::nextafter(plain, 1e9), std::nextafter(plain, -1e9)}) {
    if (near * geom::kDegree == radians) return near;
  }
  return plain;
}

Value value_of(const Row& row, const void* thing) {
  Value value = row.member.get(thing);
  if (row.kind == Kind::angle) return in_degrees(value);
  if (row.kind != Kind::choice) return value;
  if (const int* number = std::get_if<int>(&value))
    return row.words.at(static_cast<std::size_t>(*number));
  if (const bool* second = std::get_if<bool>(&value)) {
    return row.words.at(*second ? 1 : 0);
  }
  return value;
}

void set_value(const Row& row, void* thing, const Value& value) {
  if (!given(value)) return;
  if (row.kind == Kind::angle) {
    row.member.set(thing, std::get<double>(value) * geom::kDegree);
  } else if (row.kind == Kind::choice && !row.member.by_word) {
    const auto& word = std::get<std::string>(value);
    const auto at = std::find(row.words.begin(), row.words.end(), word);
    row.member.set(thing, static_cast<int>(at - row.words.begin()));
  } else {
    row.member.set(thing, value);
  }
}

}  // namespace hummock::grammar
