// One place that turns what a command threw into one line and an exit status.
//
// 0 all met · 1 something short · 2 bad input · 3 the machine gave out (memory, disk, a standard
// output that went away) · 4 a programmer's error · 130 stopped.
#pragma once

#include <functional>

namespace hummock::cli {

int told_outcome(const std::function<int()>& run);

}  // namespace hummock::cli
