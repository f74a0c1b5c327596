// The commands of `hummock`, one file each. A command says what it takes and what it runs, which
// returns the exit status and may throw InputError (status 2).
#pragma once

#include "engine/cli/command_line.h"

namespace hummock::cli {

inline constexpr int kAllMet = 0;
inline constexpr int kSomethingShort = 1;
inline constexpr int kBadInput = 2;

void add_check(CommandLine& line);
void add_report(CommandLine& line);
void add_shade(CommandLine& line);
void add_export(CommandLine& line);
void add_map(CommandLine& line);
void add_sun(CommandLine& line);
void add_light(CommandLine& line);
void add_new(CommandLine& line);
void add_compare(CommandLine& line);
void add_view(CommandLine& line);
void add_help(CommandLine& line);

}  // namespace hummock::cli
