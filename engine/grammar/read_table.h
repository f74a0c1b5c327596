// Reading a table of a file by its rows.
//
// Rows are read in the order they are declared, so the first thing wrong in that order is the one
// told: where it is, what was found, what is allowed. Rows that mean nothing for this thing are not
// asked for, and such a key in the file is refused.
#pragma once

#include <string>

#include "engine/grammar/row.h"

namespace hummock::grammar {

// Fills `thing`, a T of the table's. Throws InputError.
void read_table(TableCursor cursor, const Table& table, void* thing, const Source& source);

// One row's value; nothing when it is not given and not needed. Throws InputError.
Value read_value(TableCursor& cursor, const Row& row, const Source& source);

// The value that `text` is for this key, as it would be written in a file. Throws what the reader
// would throw. For a field that is being typed in.
Value value_from(const Row& row, const std::string& text, const Source& source);

// All keys the tables may have, by path without indices; for the cursor.
TableKeys keys_of(const Table& top);

}  // namespace hummock::grammar
