// Where each value of a TOML text stands, byte by byte, so that it can be edited in place.
//
// Needs a text that is TOML (parse it first); positions are byte offsets, ends are one past the
// last byte. Paths are dotted with 0-based indices: "boundary.section[1].overhang.length".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace hummock {

enum class SpanKind { scalar, list, table };

// A value wherever it stands: at a key of a line, inside an inline table, or in a list.
struct ValueSpan {
  std::string path;
  SpanKind kind = SpanKind::scalar;  // table = an inline one, with its braces
  std::size_t begin = 0;
  std::size_t end = 0;
  std::size_t entry_begin = 0;  // of `key = value`, or of the value itself in a list
  bool on_own_line = false;     // a `key = value` line, not inside an inline table or a list
};

// A line of the file that says something, to the end of its line break.
struct StatementSpan {
  std::string table;  // path of the table it is in, or opens
  bool header = false;
  std::size_t begin = 0;  // of the line
  std::size_t end = 0;
};

struct TomlSpans {
  std::vector<ValueSpan> values;          // in the order of their begins; outer before inner
  std::vector<StatementSpan> statements;  // in order
  const ValueSpan* find(std::string_view path) const;
  // The header line of a table, or nothing (no such table, or written inline or dotted).
  const StatementSpan* header(std::string_view table) const;
  // How many tables or values the list at `path` has.
  std::size_t count(const std::string& path) const;
};

TomlSpans scan_toml(std::string_view text);

// Is `inner` the path `outer` or something in it?
bool is_within(std::string_view inner, std::string_view outer);

}  // namespace hummock
