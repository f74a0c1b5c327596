// A text as one field of a CSV file (RFC 4180), harmless in a spreadsheet.
#pragma once

#include <string>
#include <string_view>

namespace hummock {

// In quotes when it holds a comma, a quote or a line break. A cell that begins with = + - @ tab or
// return is taken for a formula by a spreadsheet: such a text gets a ' before it.
std::string csv_field(std::string_view text);

}  // namespace hummock
