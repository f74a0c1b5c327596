// A TOML text as a plain tree that remembers its line numbers.
//
// The one place that meets the TOML library is toml_tree.cpp; readers see this.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace hummock {

struct TomlNode {
  enum class Kind { text, integer, number, flag, date, list, table };
  Kind kind = Kind::table;
  int line = 1;      // 1-based, where the value begins; a table's header line
  std::string text;  // also of a day, as 2026-05-01; empty for other times
  std::int64_t integer = 0;
  double number = 0.0;  // also set for an integer
  bool flag = false;
  // A list's items, or a table's values in the order of the file; a table also has, for each value,
  // its key and the line the key is on.
  std::vector<TomlNode> items;
  std::vector<std::string> keys;
  std::vector<int> key_lines;

  const TomlNode* find(std::string_view key) const;  // nothing when absent or not a table
};

// The line of what a dotted path with indices names ("boundary.section[1].height"): of the key, or
// the innermost table on the way that exists.
int line_of_path(const TomlNode& top, const std::string& path);

// "boundary" and "section" give "boundary.section"; nothing before the key, the key alone.
std::string joined_path(const std::string& path, const std::string& key);

// Parses TOML 1.0. Throws InputError with file and line when the text is not TOML.
TomlNode parse_toml(std::string_view text, const std::string& file);

// What a value is, for the "found" of an error: short and always on one line.
std::string describe(const TomlNode& node);
// A text in double quotes, cut and with control characters replaced.
std::string in_quotes(std::string_view text);
// The shortest decimal that reads back as the same number.
std::string plain_number(double value);

// The whole file as bytes. Throws InputError when it is missing, a folder, or cannot be read.
std::string read_text_file(const std::string& path, const std::string& what);

}  // namespace hummock
