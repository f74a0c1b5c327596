// The commands of `hummock`, one file each. A command adds its subcommand to the parser and sets
// `run` when it was chosen; `run` returns the exit status and may throw InputError (status 2).
#pragma once

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <functional>

namespace hummock::cli {

inline constexpr int kAllMet = 0;
inline constexpr int kSomethingShort = 1;
inline constexpr int kBadInput = 2;

using Run = std::function<int()>;

void add_check(CLI::App& app, Run& run);
void add_report(CLI::App& app, Run& run);
void add_shade(CLI::App& app, Run& run);
void add_export(CLI::App& app, Run& run);
void add_map(CLI::App& app, Run& run);
void add_sun(CLI::App& app, Run& run);
void add_new(CLI::App& app, Run& run);
void add_compare(CLI::App& app, Run& run);
void add_view(CLI::App& app, Run& run);
void add_help(CLI::App& app, Run& run);

}  // namespace hummock::cli
