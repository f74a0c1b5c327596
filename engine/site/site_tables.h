// The parts of the site reader, one for each table. Internal to engine/site.
//
// Each takes its table's cursor and returns plain data, checked as far as that table alone allows;
// what needs several tables is in check_site.h.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "engine/site/site.h"
#include "engine/toml/table_cursor.h"

namespace hummock {

Place read_place(TableCursor table);
Ground read_ground(TableCursor table, const std::filesystem::path& folder);
Boundary read_boundary(TableCursor table);
Roof read_roof(TableCursor table);
Object read_object(TableCursor table, int number, const std::filesystem::path& folder);
Planting read_planting(TableCursor table, int number);
Den read_den(TableCursor table, int number);
Burrow read_burrow(TableCursor table, int number);
Water read_water(TableCursor table, int number);
Viewing read_viewing(TableCursor table, int number);
House read_house(TableCursor table, int number);
Surrounding read_surrounding(TableCursor table, int number);
SitingWeights read_siting(TableCursor table);
Requirement read_requirement(TableCursor table);

// A key holding a path, taken from `folder`. Throws unless the file is there and not empty.
std::filesystem::path read_file_key(TableCursor& table, const char* key,
                                    const std::filesystem::path& folder, const std::string& what);
// bare = ["11-01", "04-01"]
std::optional<Season> read_season(TableCursor& table, const char* key);
// "gate 2" when the table has no name.
std::string read_name(TableCursor& table, const char* kind, int number);
// Concrete under a fence or a house wall.
Footing read_footing(TableCursor table);
// A door, vent or drain: a hole in a wall.
WallOpening read_hole(TableCursor& table, const std::string& name, const std::string& what);

}  // namespace hummock
