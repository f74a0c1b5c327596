// What one key of a file holds, and how it goes into a member and out of it again.
//
// A value is in the file's own terms: degrees, not radians; a choice is its word. Nothing
// (monostate) is a key that is not given. The overloads of `into` and `from` are all the kinds of
// member that a row may fill.
#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <type_traits>
#include <variant>
#include <vector>

#include "engine/site/site.h"
#include "geometry/vec.h"

namespace hummock::grammar {

using Numbers = std::vector<double>;
using Wholes = std::vector<int>;
using Points = std::vector<Vec2>;
using Words = std::vector<std::string>;
using Nothing = std::monostate;
using Value =
    std::variant<Nothing, double, int, bool, std::string, Vec2, Numbers, Wholes, Points, Words>;

inline bool given(const Value& value) {
  return !std::holds_alternative<Nothing>(value);
}

// "11-01". Precondition of the second: as `month_day` writes it.
std::string month_day(MonthDay day);
MonthDay month_day(const std::string& text);

inline void into(const Value& v, double& out) {
  out = std::get<double>(v);
}
inline void into(const Value& v, int& out) {
  out = std::get<int>(v);
}
inline void into(const Value& v, std::uint32_t& out) {
  out = static_cast<std::uint32_t>(std::get<int>(v));
}
// A flag, or a choice of two by its number.
inline void into(const Value& v, bool& out) {
  const int* choice = std::get_if<int>(&v);
  out = choice != nullptr ? *choice != 0 : std::get<bool>(v);
}
inline void into(const Value& v, std::string& out) {
  out = std::get<std::string>(v);
}
inline void into(const Value& v, std::filesystem::path& out) {
  out = std::get<std::string>(v);
}
inline void into(const Value& v, Vec2& out) {
  out = std::get<Vec2>(v);
}
inline void into(const Value& v, Vec3& out) {
  const auto& n = std::get<Numbers>(v);
  out = {n.at(0), n.at(1), n.at(2)};
}
template <std::size_t N>
void into(const Value& v, std::array<double, N>& out) {
  const auto& n = std::get<Numbers>(v);
  for (std::size_t i = 0; i < N; ++i) out[i] = n.at(i);
}
inline void into(const Value& v, Wholes& out) {
  out = std::get<Wholes>(v);
}
inline void into(const Value& v, Points& out) {
  out = std::get<Points>(v);
}
inline void into(const Value& v, Words& out) {
  out = std::get<Words>(v);
}
inline void into(const Value& v, Season& out) {
  const auto& days = std::get<Words>(v);
  out = {month_day(days.at(0)), month_day(days.at(1))};
}
// A choice whose words stand in the order of the enumerators.
template <class E>
requires std::is_enum_v<E>
void into(const Value& v, E& out) {
  out = static_cast<E>(std::get<int>(v));
}
template <class T>
void into(const Value& v, std::optional<T>& out) {
  into(v, out.emplace());
}

inline Value from(double v) {
  return v;
}
inline Value from(int v) {
  return v;
}
inline Value from(std::uint32_t v) {
  return static_cast<int>(v);
}
inline Value from(bool v) {
  return v;
}
inline Value from(const std::string& v) {
  return v.empty() ? Value() : Value(v);
}
inline Value from(const std::filesystem::path& v) {
  return from(v.generic_string());
}
inline Value from(Vec2 v) {
  return v;
}
inline Value from(const Vec3& v) {
  return Numbers{v.x, v.y, v.z};
}
template <std::size_t N>
Value from(const std::array<double, N>& v) {
  return Numbers(v.begin(), v.end());
}
inline Value from(const Wholes& v) {
  return v;
}
inline Value from(const Points& v) {
  return v.empty() ? Value() : Value(v);
}
inline Value from(const Words& v) {
  return v;
}
inline Value from(const Season& v) {
  return Words{month_day(v.from), month_day(v.to)};
}
template <class E>
requires std::is_enum_v<E> Value from(E v) {
  return static_cast<int>(v);
}
template <class T>
Value from(const std::optional<T>& v) {
  return v ? from(*v) : Value();
}

}  // namespace hummock::grammar
