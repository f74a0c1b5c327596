// Editing a site file as text: what is not edited stays as it was, byte for byte.
//
// Pure functions from text to text, for the viewer. Comments, blanks, the order of tables and keys,
// line ends and the spelling of other values are kept; edits are to the value's own bytes, or add
// or take out whole lines (or entries of an inline table). After each edit the new text is parsed
// and compared with the old: if anything else than what was asked for changed, nothing is returned
// and InputError is thrown. The text need not be a sound site, only TOML.
//
// Paths are dotted with 0-based indices as in InputError: "object[3]", "boundary.section[0]",
// "boundary.section[0].overhang", "" for the top of the file. Values are in TOML's spelling; the
// functions below write them.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "geometry/vec.h"

namespace hummock {

using KeyValues = std::vector<std::pair<std::string, std::string>>;

// Gives `key` of the table at `table` the value. A key that is not there yet is put after the
// table's last own line; a table that is not there yet, at the end of the file (not for one of a
// list). Throws InputError when the text is not TOML, the value is not one TOML value, or the
// table of a list does not exist.
std::string set_key(std::string_view text, const std::string& table, const std::string& key,
                    const std::string& value);

// Takes a key out; a text without it is returned as it is.
std::string remove_key(std::string_view text, const std::string& table, const std::string& key);

// Adds a table to a list ("object", "boundary.gate"): after the last one there, else at the end.
std::string add_table(std::string_view text, const std::string& list, const KeyValues& keys);

// Takes out one table of a list ("object[3]") with its lines, its sub-tables and the blank line
// above it. Comments above it stay. Throws InputError when it does not exist.
std::string remove_table(std::string_view text, const std::string& table);

// Values as TOML spells them. Numbers are the shortest that read back the same and always have a
// point or an exponent, so that they stay numbers of the same type. Precondition: finite.
std::string toml_number(double value);
std::string toml_integer(long long value);
std::string toml_flag(bool value);
std::string toml_text(std::string_view value);
std::string toml_point(geom::Vec2 p);
std::string toml_size(geom::Vec3 size);
std::string toml_points(const std::vector<geom::Vec2>& points);

}  // namespace hummock
