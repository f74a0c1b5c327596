// What the commands print, made fit for a terminal, and the loss of it noticed.
//
// Standard output and error go line by line through a filter: control bytes, overrides and what is
// no UTF-8 are escaped (base/printable.h). A line of the output longer than 300 characters goes on
// in indented lines, six at most; one of the errors loses its middle.
#pragma once

#include <string_view>

namespace hummock::cli {

// Call once, before anything is printed.
void guard_output();

// JSON for another program: as it is, past the filter; on a terminal with \u escapes for all that
// is not ASCII (the same JSON).
void print_json(std::string_view text);

// Our own control sequences, on standard error.
void draw_on_terminal(std::string_view text);

// Empty when all that was printed has left this process, else why not.
std::string_view lost_output();

}  // namespace hummock::cli
