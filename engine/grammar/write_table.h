// Writing things as text by their rows: one value, a whole table, or only what changed.
//
// What is not written stays byte for byte (engine/toml/edit_text.h does the cutting). A key that
// has its default is left out of a new table. Numbers are the fewest digits that read back the
// same; `to_hand` rounds them first, as a person would write them: metres to the millimetre (small
// openings and wires finer), angles to the tenth of a degree.
#pragma once

#include <string>

#include "engine/grammar/row.h"
#include "engine/toml/edit_text.h"

namespace hummock::grammar {

enum class Digits { exact, to_hand };

struct Style {
  Digits digits = Digits::exact;
  std::filesystem::path folder;  // that paths are taken from
};

// How the value is written after `key =`. Precondition: given, of the row's kind.
std::string spelled(const Row& row, const Value& value, const Style& style);

// The row's value in `thing` as it is written, "" when it is not given or is the default. For a
// table inside: `{ a = 1.0, … }`.
std::string spelled_in(const Row& row, const Table& table, const void* thing, const Style& style);

// What a new table needs: every row that is not at its default, tables inside written inline.
KeyValues key_values(const Table& table, const void* thing, const Style& style);

// Sets, in the table at `path`, the keys that differ between the two things and takes out those
// that are no longer given. Throws InputError when the text has no such table.
std::string write_changes(const std::string& text, const std::string& path, const Table& table,
                          const void* before, const void* after, const Style& style);

// A whole file.
std::string written(const Table& top, const void* thing, const Style& style);

}  // namespace hummock::grammar
