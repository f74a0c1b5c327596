// Reading one table of a TOML file, key by key, with an error that names file, line, key, what was
// found and what is allowed.
//
// A cursor is opened on a table and refuses at once any key that the schema does not know there
// (with the nearest one that it does). Each getter takes a key, checks type and range, and marks
// it as used; `done()` then refuses keys that exist but mean nothing here (a radius on a bench).
// Key paths are dotted, with 0-based indices: `boundary.section[1].height`.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/input_error.h"
#include "engine/toml/toml_tree.h"
#include "geometry/plan/polygon.h"
#include "geometry/vec.h"

namespace hummock {

// Table path without indices ("" = top, "boundary.section") → the keys it may have.
using TableKeys = std::map<std::string, std::vector<std::string>>;

// Closed interval, or open below: lo < x <= hi.
struct Range {
  double lo = 0.0;
  double hi = 0.0;
  const char* unit = "";
  bool above_lo = false;
};

class TableCursor {
 public:
  // `schema` and `node` must outlive the cursor. Throws on an unknown key.
  TableCursor(const TomlNode& node, std::string path, std::string file, const TableKeys& schema);

  Where where() const;                 // the table
  Where where(const char* key) const;  // a key of it, or the table's line when absent
  bool has(const char* key) const;

  // With a default: absent gives it. Without: absent is an error.
  double number(const char* key, Range range);
  double number(const char* key, Range range, double otherwise);
  std::optional<double> maybe_number(const char* key, Range range);
  double angle(const char* key, Range degrees);  // radians
  double angle(const char* key, Range degrees, double otherwise_radians);
  int integer(const char* key, int lo, int hi);
  int integer(const char* key, int lo, int hi, int otherwise);
  bool flag(const char* key, bool otherwise);
  std::string text(const char* key);  // not empty
  std::string text(const char* key, const std::string& otherwise);
  std::string choice(const char* key, const std::vector<std::string>& allowed);
  std::string choice(const char* key, const std::vector<std::string>& allowed,
                     const std::string& otherwise);
  std::vector<std::string> choices(const char* key, const std::vector<std::string>& allowed);
  std::vector<int> integers(const char* key, int lo, int hi);
  // Exactly `count` numbers.
  std::vector<double> numbers(const char* key, std::size_t count, Range range);
  geom::Vec2 point(const char* key);
  geom::Vec3 size(const char* key);                          // three lengths above 0
  std::vector<geom::Vec2> path(const char* key, int least);  // [[x, y], …]
  geom::Polygon polygon(const char* key);                    // simple, at least 3 corners
  // [[a, b], …], at least one; `form` says what a pair is: "a pair [azimuth, elevation] (degrees)".
  std::vector<std::array<double, 2>> pairs(const char* key, Range a, Range b, const char* form);

  const TomlNode* raw(const char* key);  // marks as used; nothing when absent
  std::optional<TableCursor> table(const char* key);
  std::vector<TableCursor> tables(const char* key);  // absent = none

  // Refuses keys not asked for. `what` is the thing in words: "a bench", "a solid section".
  void done(const std::string& what) const;

  [[noreturn]] void refuse(const char* key, const std::string& found,
                           const std::string& allowed) const;

 private:
  const TomlNode& required(const char* key, const std::string& allowed);
  Where item(const char* key, std::size_t index, const TomlNode& node) const;
  double checked(const TomlNode& node, const Where& where, const Range& range) const;
  geom::Vec2 checked_point(const TomlNode& node, const Where& where) const;

  const TomlNode* node_;
  std::string path_;
  std::string file_;
  const TableKeys* schema_;
  std::set<std::string> used_;
};

// "a number from 0.1 to 20 (m)"
std::string in_words(const Range& range);
// The entry of `allowed` that `text` is probably a slip of, or nothing.
std::optional<std::string> nearest_word(const std::string& text,
                                        const std::vector<std::string>& allowed);

// Coordinates may be anything a map projection gives.
inline constexpr Range kCoordinate{-1e8, 1e8, "m"};
// A limit of the brief: any finite number.
inline constexpr Range kAnyFigure{-1e300, 1e300, ""};

}  // namespace hummock
