// The rows in words: for the terminal and for the page of all keys.
#pragma once

#include <string>

#include "engine/grammar/row.h"

namespace hummock::grammar {

// "m below ground", "" when it has none.
std::string unit_of(const Row& row);
// "0 < x ≤ 5", "mesh, solid or glass", "2 or more [x, y]".
std::string allowed_of(const Row& row);
// "needed", "none", "0.003": what leaving it out means.
std::string default_of(const Row& row, const Table& table);
// "clear opening of the mesh (mesh)": what has it stands in brackets.
std::string meaning_of(const Row& row);

// Of the whole file, of a table, or of a key, by its dotted path. `file` is "site" or "species".
// Throws InputError when there is no such key.
std::string help(const Table& top, const std::string& file, const std::string& path);

// examples/SITE-FILE.md: `prose` with the tables in place of its lines {site}, {brief} and
// {species}.
std::string page(const std::string& prose);

}  // namespace hummock::grammar
