// Going through a thing by its rows, with all the tables inside it.
#pragma once

#include <functional>
#include <string>

#include "engine/grammar/row.h"

namespace hummock::grammar {

// Every row that means something and is no table itself, in `thing` and all that is in it.
void for_each_row(const Table& table, void* thing,
                  const std::function<void(const Row&, void*)>& each);

// Takes `by` off every place: points, paths and outlines.
void shift_places(const Table& table, void* thing, Vec2 by);

// What a dotted path names; indices are left aside. A table has no row only at the top.
struct Named {
  const Table* table = nullptr;  // the table, or that of the row
  const Row* row = nullptr;      // nothing = the table itself
  bool list = false;             // of a table: of a list
};
// Throws InputError with the nearest key when there is none of that name.
Named named(const Table& top, const std::string& path);

}  // namespace hummock::grammar
